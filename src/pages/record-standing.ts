import type { SiteInline, SitePart } from '../document/site.ts';
import type { Standing } from '../graph/standing.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { text } from '../views/cells.ts';
import { mark, type SiteContext } from './site-context.ts';

const listed = (ids: readonly string[], between = ', '): readonly SiteInline[] =>
  ids.flatMap((id, index): readonly SiteInline[] => [
    ...(index === 0 ? [] : [text(between)]),
    { kind: 'record-reference', id },
  ]);

const verdictWords: Readonly<Record<string, string>> = { fail: 'failed', undecided: 'was not decided' };

/** A result that did not pass, and what repeated it. */
interface Repeated {
  readonly id: string;
  readonly words: string;
  readonly by: string;
}

/** Results that did not pass and that the given ones replace, also over several repetitions. */
const repeatedBefore = (
  results: readonly string[],
  { graph, evidence }: Pick<SiteContext, 'graph' | 'evidence'>,
): readonly Repeated[] => {
  const found = new Map<string, Repeated>();
  const counted = new Set(results);
  const seen = new Set(results);
  for (const id of seen)
    for (const { to } of graph.linksFrom(id, 'retests')) {
      // One that still counts is told among the results: its repetition is not approved.
      if (counted.has(to)) continue;
      seen.add(to);
      const words = verdictWords[evidence.get(to)?.verdict ?? ''];
      if (words !== undefined) found.set(to, { id: to, words, by: id });
    }
  return [...found.values()];
};

const repeatedWords = (repeated: readonly Repeated[]): readonly SiteInline[] =>
  repeated.flatMap(({ id, words, by }, index): readonly SiteInline[] => [
    ...(index === 0 ? [] : [text('; ')]),
    { kind: 'record-reference', id },
    text(` ${words} and was repeated by `),
    { kind: 'record-reference', id: by },
  ]);

/** How many of the results on which a standing rests hold, and which. */
const resultWords = (holding: readonly string[], others: readonly string[]): readonly SiteInline[] => {
  const all = holding.length + others.length;
  if (others.length === 0)
    return [text(all === 1 ? 'the only one holds: ' : `all ${all} hold: `), ...listed(holding)];
  return [
    text(`${holding.length} of ${all} hold${holding.length === 0 ? '' : ': '}`),
    ...listed(holding),
    text('; not: '),
    ...listed(others),
  ];
};

const chainWords = ({
  state,
  because,
}: Standing): readonly { name: string; value: readonly SiteInline[] }[] =>
  because.length > 1
    ? [{ name: state === 'passed' ? 'Shown by' : 'Weakest link', value: listed(because, ' → ') }]
    : [];

/**
 * How a record stands, and why. What passed rests on all its results, so all of them are named; of what did not, the
 * weakest link decides.
 */
export const standingParts = (record: TechnicalRecord, context: SiteContext): readonly SitePart[] => {
  const known = context.standing.get(record.id);
  if (!known) return [];
  const results = known.results.filter((id) => id !== record.id);
  const holds = (id: string): boolean => context.standing.get(id)?.state === 'passed';
  const repeated = repeatedBefore(results, context);
  const isCounted = known.state === 'passed' && results.length > 0;
  return [
    {
      kind: 'facts',
      entries: [
        { name: 'It stands', value: [mark(known.state)] },
        ...(isCounted ? [] : [{ name: 'Why', value: [text(`${known.reason}.`)] }, ...chainWords(known)]),
        ...(results.length === 0
          ? []
          : [
              {
                name: 'Results on which it rests',
                value: resultWords(
                  results.filter(holds),
                  results.filter((id) => !holds(id)),
                ),
              },
            ]),
        ...(repeated.length === 0 ? [] : [{ name: 'Repeated', value: repeatedWords(repeated) }]),
      ],
    },
  ];
};
