import type { PlinthFields } from './fields.ts';
import type { ParsedYaml } from './front-matter.ts';

export const projectFile = 'plinth.yaml';

/** plinth.yaml as read: the fields, and where each of them stands. */
export interface Project {
  readonly fields: PlinthFields;
  readonly yaml: ParsedYaml;
}
