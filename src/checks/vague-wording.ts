import { proseOnly, sectionsOf } from '../records/prose.ts';
import { placeInBody, placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';
import builtIn from './vague-words.json' with { type: 'json' };

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Finds whole words and phrases, the longest first, so that "user-friendly" is not reported as "friendly". */
const patternFor = (words: readonly string[]): RegExp => {
  const longestFirst = [...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  const phrases = longestFirst.map((word) => word.trim().split(/\s+/).map(escaped).join('\\s+'));
  return new RegExp(`(?<![\\p{L}\\p{N}])(?:${phrases.join('|')})(?![\\p{L}\\p{N}])`, 'giu');
};

const plain = (text: string): string => text.toLowerCase().replace(/\s+/g, ' ');

const draft = (
  input: RecordOf<'design-input'>,
  word: string,
  where: string,
  place: Draft['place'],
): Draft => ({
  place,
  message: `${input.id} says "${word}" in its ${where}, which no test can judge`,
  hint: 'State a number with its unit, or what can be seen when it holds.',
  records: [input.id],
  data: { word },
});

export const vagueWording = defineCheck({
  code: 'vague-wording',
  level: 'warning',
  title: 'A design input is worded vaguely',
  basis: 'ISO 13485:2016 7.3.3 (inputs are unambiguous and can be verified)',
  explain:
    'The title or the statement of the input (the text before its first heading) uses a word that two people will understand differently, such as "adequate" or "easy". Such an input cannot be verified: any result can be argued to meet it, and the user who needed it is not heard.\n\nSay what can be measured or seen instead: "at most 25 N" for "easy to squeeze". The rationale below the first heading is free text and is not looked at. More words can be given under `vague_words` in plinth.yaml.',
  examines: 'design inputs',
  subjects: ({ graph, project }) => {
    const pattern = patternFor([...builtIn, ...(project.fields.vague_words ?? [])]);
    return graph
      .recordsOf('design-input')
      .filter((input) => input.status !== 'retired')
      .map((input) => ({ input, pattern }));
  },
  judge: ({ input, pattern }) => {
    const seen = new Set<string>();
    const firstOnly = (match: RegExpExecArray): boolean => {
      const word = plain(match[0]);
      return !seen.has(word) && seen.add(word) !== undefined;
    };
    const statement = proseOnly(input.body).slice(0, sectionsOf(input.body)[0]?.text.length ?? 0);
    return [
      ...[...input.title.matchAll(pattern)]
        .filter(firstOnly)
        .map((match) => draft(input, plain(match[0]), 'title', placeOf(input, 'title'))),
      ...[...statement.matchAll(pattern)]
        .filter(firstOnly)
        .map((match) =>
          draft(input, plain(match[0]), 'statement', placeInBody(input, match.index, match[0].length)),
        ),
    ];
  },
});
