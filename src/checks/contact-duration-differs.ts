import { type ContactGroup, evaluations, hasContact } from '../evidence/biological-contact.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf } from '../records/record.ts';
import { unitConverter } from '../records/units.ts';
import type { ContactDuration } from '../regulation/biological-endpoints.ts';
import { type Draft, defineCheck } from './check.ts';

/** A contact time that another record states. */
interface Stated {
  readonly duration: ContactDuration;
  /** In words: `MT-04 states "limited, not over 24 h"`. */
  readonly says: string;
  readonly record: string;
  readonly place: Draft['place'];
}

const day = 24 * 60;
const order: readonly ContactDuration[] = ['limited', 'prolonged', 'long-term'];

/** Class of a contact time: to 24 h, to 30 days, longer. */
const durationOf = (minutes: number): ContactDuration =>
  minutes <= day ? 'limited' : minutes <= 30 * day ? 'prolonged' : 'long-term';

const minutesIn: Readonly<Record<string, number>> = {
  min: 1,
  h: 60,
  d: day,
  week: 7 * day,
  month: 30 * day,
  year: 365 * day,
};

const written =
  /(not )?(over |more than |longer than |above |beyond |exceeding |> ?)?(\d{1,5}(?:[.,]\d{1,2})?)[ \u00a0-]?(min|h|d|week|month|year)(?:utes?|ours?|rs?|ays?|s)?\b/gi;

/** The class of the longest time that a text gives in figures; `over 24 h` is what follows 24 h. */
const writtenDuration = (text: string): ContactDuration | undefined => {
  const times = [...text.matchAll(written)].map((match) => {
    const minutes =
      Number((match[3] ?? '').replace(',', '.')) * (minutesIn[(match[4] ?? '').toLowerCase()] ?? Number.NaN);
    return match[2] !== undefined && match[1] === undefined ? minutes + 1 : minutes;
  });
  return times.length === 0 ? undefined : durationOf(Math.max(...times));
};

/** The class that a text names, `permanent` being the older word for long-term; else that of the time it gives. */
const durationIn = (text: string): ContactDuration | undefined => {
  const found = order.filter((each) =>
    new RegExp(`\\b(?:${each.replace('-', '[ -]')}${each === 'long-term' ? '|permanent' : ''})\\b`, 'i').test(
      text,
    ),
  );
  if (found.length === 0) return writtenDuration(text);
  return found.length === 1 ? found[0] : undefined;
};

const ofMaterials = ({ materials }: ContactGroup, graph: TraceGraph): readonly Stated[] =>
  graph
    .recordsOf('material')
    .filter(({ id, status }) => status !== 'retired' && materials.includes(id))
    .flatMap((material): readonly Stated[] => {
      const text = material.fields.duration;
      const duration = text === undefined ? undefined : durationIn(text);
      return duration === undefined
        ? []
        : [
            {
              duration,
              says: `${material.id} states "${text}"`,
              record: material.id,
              place: placeOf(material, 'duration'),
            },
          ];
    });

/** The longest use of all classifications. */
const ofUse = (graph: TraceGraph): Stated | undefined =>
  graph
    .recordsOf('classification')
    .filter(({ status }) => status !== 'retired')
    .flatMap((record) => {
      const { value, unit } = record.fields.duration.longest;
      const minutes = unitConverter(unit, 'min')?.(value);
      // A unit that is none is told by use-duration-differs.
      return minutes === undefined ? [] : [{ record, minutes, written: `${value} ${unit}` }];
    })
    .sort((a, b) => b.minutes - a.minutes)
    .map(
      ({ record, minutes, written }): Stated => ({
        duration: durationOf(minutes),
        says: `${record.id} states a longest use of ${written}, which is ${durationOf(minutes)}`,
        record: record.id,
        place: placeOf(record, 'duration', 'longest'),
      }),
    )[0];

/** Whether the reason of a group says that uses add up to more than the longest single one. */
const addsUp = ({ reason }: ContactGroup): boolean =>
  /\b(?:add(?:s|ed)? up|cumulative|repeated)\b/i.test(reason ?? '');

const against = (group: ContactGroup, duration: ContactDuration, graph: TraceGraph): readonly Stated[] => {
  const use = ofUse(graph);
  const longer = use !== undefined && order.indexOf(duration) > order.indexOf(use.duration);
  return [
    ...ofMaterials(group, graph).filter((each) => each.duration !== duration),
    ...(use === undefined || use.duration === duration || (longer && addsUp(group)) ? [] : [use]),
  ];
};

export const contactDurationDiffers = defineCheck({
  code: 'contact-duration-differs',
  level: 'warning',
  title: 'A contact time of the biological evaluation is not that of the material or of the use',
  basis:
    'ISO 10993-1 (limited to 24 h, prolonged to 30 days, long-term above, uses add up; from memory); Regulation (EU) 2017/745 Annex VIII 1 and 3.6 (continuous use)',
  explain:
    'A group of the biological evaluation states a duration of contact, and one of its materials states another class of time in its `duration`, by name or in figures such as `40 days`, or the longest use of the classification falls into another class. Limited is to 24 h, prolonged to 30 days, long-term, formerly permanent, is longer. Where several classifications are on file, the longest use counts.\n\nThe time decides which endpoints have to be addressed. With too short a time some are left out; with two times on file nobody knows which was evaluated.\n\nCorrect whichever is wrong. The contact may be longer than a single use where several uses add up: say so in the `reason` of the group, with the words "add up", "cumulative" or "repeated".',
  examines: 'groups with a contact time',
  subjects: ({ graph }) =>
    evaluations(graph).flatMap((evaluation) =>
      evaluation.fields.groups.flatMap((group, index) =>
        hasContact(group) && group.duration !== undefined
          ? [{ evaluation, group, index, duration: group.duration }]
          : [],
      ),
    ),
  judge: ({ evaluation, group, index, duration }, { graph }): readonly Draft[] => {
    const differing = against(group, duration, graph);
    if (differing.length === 0) return [];
    return [
      {
        place: placeOf(evaluation, 'groups', index, 'duration'),
        message: `${evaluation.id}: the contact of the group "${group.group}" is ${duration}; ${differing.map(({ says }) => says).join('; ')}`,
        hint: 'Correct whichever is wrong, or say in the reason of the group how uses add up.',
        records: [evaluation.id, ...differing.map(({ record }) => record)],
        related: differing.map(({ place, says }) => ({ place, message: says })),
        data: { group: group.group, duration },
      },
    ];
  },
});
