import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** Whether words in one language serve where another is asked for: `en-GB` serves `en`. */
const serves = (released: string, wanted: string): boolean => {
  const [have, need] = [released.toLowerCase(), wanted.toLowerCase()];
  return have === need || have.startsWith(`${need}-`);
};

export const marketLanguageMissing = defineCheck({
  code: 'market-language-missing',
  level: 'warning',
  title: 'A label or the instructions lack a language that a market needs',
  basis:
    'Regulation (EU) 2017/745 Art. 10(11); which languages they are is national law, looked up by the maker',
  explain:
    'plinth.yaml lists `markets` with the languages that are needed there. A label or instructions for use do not list one of these languages under `languages`.\n\nA user who cannot read a warning does not have it. Member States say which official languages they accept, and professional users are sometimes treated otherwise than lay users; Plinth does not know these rules and takes the list as the maker states it.\n\nHave the words translated and checked, and add the language. Or take the market from the list until then.',
  examines: 'labels and instructions by market',
  subjects: ({ graph, project }) => {
    const outputs = graph
      .recordsOf('design-output')
      .filter(
        ({ status, fields }) =>
          status !== 'retired' && (fields.kind === 'label' || fields.kind === 'instructions for use'),
      );
    return (project.fields.markets ?? []).flatMap((market, index) =>
      outputs.map((output) => ({ output, market, index })),
    );
  },
  judge: ({ output, market, index }, { project }): readonly Draft[] => {
    const released = output.fields.languages ?? [];
    const missing = market.languages.filter((wanted) => !released.some((have) => serves(have, wanted)));
    if (missing.length === 0) return [];
    return [
      {
        place: output.fields.languages ? placeOf(output, 'languages') : placeOf(output, 'kind'),
        message: `${output.id} lacks ${missing.length > 1 ? 'the languages' : 'the language'} ${missing.join(', ')} for ${market.market}, it has ${released.length === 0 ? 'none stated' : released.join(', ')}`,
        hint: 'Release the words in this language and list it under "languages", or take the market from plinth.yaml.',
        records: [output.id],
        related: [
          {
            place: project.yaml.place(['markets', index, 'languages']),
            message: `languages of ${market.market}`,
          },
        ],
        data: { market: market.market, missing: missing.join(', ') },
      },
    ];
  },
});
