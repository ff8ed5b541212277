import { Ajv2020 } from 'ajv/dist/2020.js';
import { boundedPattern } from './bounded-pattern.ts';

/**
 * What compiles schemas into validators.
 *
 * @param asText whether the text of the validators is kept too, for the bundle, which compiles the tool's own beforehand
 */
export const createSchemaCompiler = ({ asText = false }: { readonly asText?: boolean } = {}): Ajv2020 => {
  const ajv = new Ajv2020({
    allErrors: true,
    strict: true,
    allowUnionTypes: true,
    strictRequired: false,
    strictTypes: false,
    validateFormats: false,
    logger: false,
    // Making the validators' own text shorter takes longer than running it as it is.
    code: { regExp: boundedPattern, optimize: asText, source: asText },
  });
  return ajv.addVocabulary([
    'x-record',
    'x-view',
    'x-link',
    'x-informative',
    'x-written',
    'x-rows',
    'x-unit',
  ]);
};
