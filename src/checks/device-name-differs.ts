import { wordDifference } from '../records/near-copies.ts';
import type { Project } from '../records/project.ts';
import { recordTexts } from '../records/record-texts.ts';
import { type Draft, defineCheck } from './check.ts';

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

interface Names {
  readonly code: string;
  readonly full: string;
  /** Where the full name stands in plinth.yaml. */
  readonly path: readonly string[];
  /** Words from the first word of the name up to the code. */
  readonly fullName: RegExp;
  /** The letters of the code with another number or another mark between. */
  readonly otherCode: RegExp | undefined;
}

const namesOf = (project: Project): Names | undefined => {
  const { name, code } = project.fields.device;
  if (code === undefined || code.trim() === '') return undefined;
  const phrase = project.fields.phrases?.['device_name'];
  const full = phrase ?? `${name} ${code}`;
  const first = full.split(/\s+/)[0] ?? '';
  const words = full.split(/\s+/).length;
  const parts = /^(\p{L}{2,10})([-\s]?)(\d{1,6})(.{0,10})$/u.exec(code);
  return {
    code,
    full,
    path: phrase === undefined ? ['device', 'name'] : ['phrases', 'device_name'],
    // At most two words more than the name has; no full stop in between.
    fullName: new RegExp(
      `(?<![\\p{L}\\p{N}-])${escaped(first)}(?:\\s+[^\\s.;:()]{1,40}){0,${words}}\\s+${escaped(code)}(?![\\p{L}\\p{N}]|-\\p{N})`,
      'giu',
    ),
    otherCode: parts
      ? new RegExp(
          `(?<![\\p{L}\\p{N}-])${escaped(parts[1] ?? '')}[-\\s\\u2010-\\u2014]?\\d{1,6}(?![\\p{L}\\p{N}]|[-.]\\p{L}|[-.]\\p{N})`,
          'gu',
        )
      : undefined,
  };
};

const plain = (text: string): string => text.replace(/[*_`]/g, '').replace(/\s+/g, ' ').trim();

export const deviceNameDiffers = defineCheck({
  code: 'device-name-differs',
  level: 'error',
  title: 'A text names the device differently',
  basis:
    'Regulation (EU) 2017/745 Annex I 23.2(a) and Annex II 1.1(a); the comparison is common practice, no source',
  explain:
    'A record gives the name of the device with its code, and the words between are not those of plinth.yaml; or it writes the code with another number or another mark, such as DGA-2 or DGA 1 for DGA-1. The case of the first letter makes no difference, and shorter names without the code are left alone.\n\nName and code are how certificate, declaration, label and registration are matched. Another name can be another device.\n\nUse the name of plinth.yaml. In documents write `:device[name] :device[code]`.',
  examines: 'records, by name and code of the device',
  subjects: ({ graph, project }) => {
    const names = namesOf(project);
    return names
      ? [...graph.records.values()]
          .filter((record) => record.sound && record.status !== 'retired')
          .map((record) => ({ record, names }))
      : [];
  },
  judge: ({ record, names }, { project }): readonly Draft[] => {
    const related = [{ place: project.yaml.place([...names.path]), message: 'the name of the device' }];
    return recordTexts(record)
      .filter(({ path }) => path?.[0] !== 'states')
      .flatMap(({ text, placeAt }) => [
        ...[...text.matchAll(names.fullName)]
          .filter(([found]) => plain(found).slice(1) !== plain(names.full).slice(1))
          .map((match) => ({
            place: placeAt(match.index, match[0].length),
            message: `${record.id} names the device "${plain(match[0])}": ${wordDifference(plain(match[0]), names.full)}`,
            hint: `Write "${names.full}".`,
            records: [record.id],
            related,
          })),
        ...(names.otherCode ? [...text.matchAll(names.otherCode)] : [])
          .filter(([found]) => found !== names.code)
          .map((match) => ({
            place: placeAt(match.index, match[0].length),
            message: `${record.id} writes "${match[0]}", and the code of the device is ${names.code}`,
            hint: `Write "${names.code}", or name the other device in full.`,
            records: [record.id],
            related,
          })),
      ]);
  },
});
