import {
  type Claim,
  claims,
  labelling,
  type UserText,
  userMaterial,
  userTextsOf,
} from '../evidence/claims.ts';
import { withoutWordings } from '../records/plain-words.ts';
import type { Project } from '../records/project.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';
import builtIn from './misleading-words.json' with { type: 'json' };

const kinds = ['promise', 'rank', 'comparison', 'absolute'] as const;

type Kind = (typeof kinds)[number];

const kindWords: Readonly<Record<Kind, string>> = {
  promise: 'promises without limits',
  rank: 'ranks the device above all others',
  comparison: 'compares the device',
  absolute: 'allows no exception',
};

const kindOf = new Map<string, Kind>(
  kinds.flatMap((kind) => builtIn[kind].map((word) => [word, kind] as const)),
);

/** Whole words and phrases, the longest first, so that "100 % safe" is not told of as "safe". */
const patternFor = (wanted: readonly string[]): RegExp => {
  const words = [...wanted]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map((word) => word.split(' ').join('\\s+'));
  return new RegExp(`(?<![\\p{L}\\p{N}-])(?:${words.join('|')})(?![\\p{L}\\p{N}]|-\\p{L})`, 'giu');
};

const everything = patternFor([...kindOf.keys()]);

/** In labels and instructions some words tell users what to do: "always", "fill completely", "dispose of safely". */
const ordinary = new Set<string>(builtIn['ordinary in instructions']);
const inLabelling = patternFor([...kindOf.keys()].filter((word) => !ordinary.has(word)));

interface Found {
  readonly word: string;
  readonly offset: number;
  readonly length: number;
}

const foundIn = (text: string, pattern: RegExp): readonly Found[] =>
  [...text.matchAll(pattern)].map((match) => ({
    word: match[0].toLowerCase().replace(/\s+/g, ' '),
    offset: match.index,
    length: match[0].length,
  }));

const plain = (word: string): string => word.toLowerCase().replace(/\s+/g, ' ').trim();

export const misleadingWordUnexplained = defineCheck({
  code: 'misleading-word-unexplained',
  level: 'warning',
  title: 'An absolute or comparative word stands in a claim or brochure without a reason',
  basis:
    'Regulation (EU) 2017/745 Article 7 (statements that may mislead about intended purpose, safety and performance); the list of words is common practice, no source',
  explain:
    'A claim has a word such as "painless", "best", "faster" or "always" that its `words` does not list with a reason, or a comparison does not say with what. Or a label, instructions for use or a brochure have such a word outside of any claim. In labels and instructions words that tell users what to do ("always", "fill completely", "dispose of safely") are not looked for.\n\nSuch words promise more than a sample can show. A comparison needs evidence in which both were compared. The list is English; other languages have to be read by people. Whether a statement misleads is a judgement of people, who must know the law of each market.\n\nSay what was measured instead. Where the word is to stay, enter it under `words` of the claim with the reason and, for a comparison, with what the device is compared.',
  examines: 'claims, and texts of labels, instructions and material for users',
  subjects: ({ graph, project }) => {
    const known = [...claims(graph).map(({ fields }) => fields.wording), ...phrasesOf(project)];
    const texts = new Map<string, { readonly user: UserText; readonly pattern: RegExp }>();
    const add = (user: UserText, pattern: RegExp): void => {
      const key = `${user.record.id} ${JSON.stringify(user.text.path ?? [])}`;
      if (!texts.has(key)) texts.set(key, { user, pattern });
    };
    for (const document of userMaterial(graph))
      for (const user of userTextsOf(document, graph)) add(user, everything);
    for (const output of labelling(graph))
      for (const user of userTextsOf(output, graph)) if (isPrinted(user)) add(user, inLabelling);
    return [
      ...claims(graph).map((claim) => ({ kind: 'claim' as const, claim })),
      ...[...texts.values()].map(({ user, pattern }) => ({ kind: 'text' as const, user, pattern, known })),
    ];
  },
  judge: (subject): readonly Draft[] => {
    if (subject.kind === 'claim') return judgeClaim(subject.claim);
    const { user, pattern, known } = subject;
    return foundIn(withoutWordings(user.text.text, known), pattern).map(({ word, offset, length }) => ({
      place: user.text.placeAt(offset, length),
      message: `${user.record.id} says "${word}", which ${kindWords[kindOf.get(word) ?? 'promise']}, outside of any claim`,
      hint: 'Say what was measured, or make it a claim with its evidence and the reason for the word.',
      records: [user.record.id],
      data: { word },
    }));
  },
});

/** The body of an output describes the artwork for people of the maker; only its particulars are printed. */
const isPrinted = ({ record, text }: UserText): boolean =>
  record.type === 'document' || text.path !== undefined;

const phrasesOf = (project: Project): readonly string[] => Object.values(project.fields.phrases ?? {});

const judgeClaim = (claim: Claim): readonly Draft[] =>
  foundIn(claim.fields.wording, everything).flatMap(({ word }): readonly Draft[] => {
    const kind = kindOf.get(word) ?? 'promise';
    const entry = claim.fields.words?.find((each) => plain(each.word) === word);
    if (entry && (kind !== 'comparison' || entry.compared_with !== undefined)) return [];
    return [
      {
        place: placeOf(claim, 'wording'),
        message: entry
          ? `${claim.id} says "${word}" and does not say with what it compares the device`
          : `${claim.id} says "${word}", which ${kindWords[kind]}, and gives no reason for it`,
        hint: entry
          ? 'Add "compared_with" to the word, and evidence in which both were compared.'
          : 'Say what was measured, or enter the word under "words" with the reason.',
        records: [claim.id],
        data: { word },
      },
    ];
  });
