import type { Project } from './project.ts';
import type { RecordOf } from './record.ts';

/** Whether a label or leaflet is released in other languages only: a translation cannot hold the words of the file. */
export const isTranslation = ({ fields }: RecordOf<'design-output'>, project: Project): boolean => {
  const own = project.fields.language?.split('-')[0]?.toLowerCase();
  const { languages = [] } = fields;
  return (
    own !== undefined &&
    languages.length > 0 &&
    !languages.some((each) => each.split('-')[0]?.toLowerCase() === own)
  );
};
