import { printable } from '../writers/report-text/printable.ts';
import type { Answer, DocumentOriginReport } from './document-origin.ts';
import { wrap } from './wrap.ts';

const sentences: Readonly<Record<'currentState' | 'currentText', Readonly<Record<Answer, string>>>> = {
  currentText: {
    yes: 'Compiled now, the document would say the same.',
    no: 'Compiled now, the document would say something else.',
    unknown:
      'What it would say today cannot be told: the technical file has no such document, or the file in hand carries no digest of its text.',
  },
  currentState: {
    yes: 'It was compiled from the technical file as it is now.',
    no: 'It was compiled from another state of the technical file.',
    unknown: 'From which state it was compiled cannot be told: the file carries no digest of the content.',
  },
};

const houseSentences: Readonly<Record<'yes' | 'no', string>> = {
  yes: 'It was written in the house style as it is now.',
  no: 'It was not written in the house style as it is now: that has changed since, or another one, or none, is named.',
};

/** What is compared, in the words of the report. */
const comparedWords: Readonly<Record<keyof DocumentOriginReport['compared'], string>> = {
  words: 'the words',
  passages: 'what is hidden, struck through, white or too small to be read',
  pictures: 'pictures or their descriptions',
  drawings: 'drawings',
  heads: 'running heads and feet',
  particulars: 'number, revision, state or origin in its properties',
};

const listed = (kinds: readonly string[]): string => {
  const words = kinds.map((kind) => comparedWords[kind as keyof typeof comparedWords]);
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
};

/** Whether it was edited, and what that rests on. */
const editedSentences = ({ unedited, compared, savedBy }: DocumentOriginReport): readonly string[] => {
  const having = (answer: Answer): readonly string[] =>
    Object.entries(compared).flatMap(([kind, each]) => (each === answer ? [kind] : []));
  const form =
    savedBy === undefined
      ? 'Fonts, colours, layout, page numbers and pictures in running heads were not compared.'
      : `Another program, ${printable(savedBy)}, saved it anew in its own form. Fonts, colours, layout, page numbers and pictures in running heads were not compared.`;
  if (unedited === 'no')
    return [
      `Somebody edited the file since it was written. Not as written: ${listed(having('no'))}.`,
      ...(compared.particulars === 'no'
        ? ['What it says of its own number, revision, state and origin cannot be relied on.']
        : []),
      ...(compared.pictures === 'no' && savedBy !== undefined
        ? ['Some programs make large pictures smaller as they save: look at them.']
        : []),
      form,
    ];
  if (compared.words === 'unknown')
    return ['Whether it was edited cannot be told: the file carries no digest of its words.'];
  if (unedited === 'unknown')
    return [
      `The words are those that were written. Whether somebody edited ${listed(having('unknown'))} cannot be told: the file carries no digest of these, as files of earlier versions.`,
    ];
  return [`No edit was found since it was written. As written: ${listed(having('yes'))}.`, form];
};

/** The sentence on the state: a document that names another maker or product is hardly one of this technical file. */
const stateSentence = (report: DocumentOriginReport): string => {
  const { otherNames, commit, currentState } = report;
  if (otherNames === undefined) return sentences.currentState[currentState];
  const names = otherNames
    .map(
      ({ what, named, here }) =>
        `the ${what} "${printable(named)}", this technical file "${printable(here)}"`,
    )
    .join(', and ');
  if (currentState === 'yes' || commit) return `${sentences.currentState[currentState]} It names ${names}.`;
  return `It seems to belong to another technical file: it names ${names}.`;
};

const whichState = ({ commit, searched, currentState }: DocumentOriginReport): string | undefined => {
  if (commit) return `That state is commit ${commit.id.slice(0, 12)} of ${commit.date}.`;
  if (searched !== undefined)
    return `None of the ${searched} commits that were looked through has that state.`;
  return currentState === 'no' ? 'There is no repository to look for that state in.' : undefined;
};

/** The report as text. */
export const originText = (report: DocumentOriginReport, width: number): string => {
  const { record, document, comments, changes, properties } = report;
  const line = (text: string, indent = ''): string => `${wrap(text, width, `${indent}  `, indent)}\n`;
  const name = [record, document].filter((part) => part !== undefined).join(', ');
  const state = whichState(report);
  const shown = ['Stated as of', 'Git revision', 'House style', 'Compiled with'].flatMap((key) => {
    const value = properties.get(key);
    return value === undefined ? [] : [line(`${key}: ${printable(value)}`, '  ')];
  });
  return [
    line(`${printable(report.file)}${name === '' ? '' : `: ${printable(name)}`}`),
    ...shown,
    '\n',
    line(editedSentences(report).join(' ')),
    line(`${stateSentence(report)}${state === undefined ? '' : ` ${state}`}`),
    line(sentences.currentText[report.currentText]),
    ...(report.currentHouseStyle === 'yes' || report.currentHouseStyle === 'no'
      ? [line(houseSentences[report.currentHouseStyle])]
      : []),
    ...(comments + changes > 0
      ? [
          line(
            `It holds ${comments} comment${comments === 1 ? '' : 's'} and ${changes} tracked change${changes === 1 ? '' : 's'}: see plinth comments.`,
          ),
        ]
      : []),
  ].join('');
};

/** The report for programs. */
export const originJson = ({ properties, ...report }: DocumentOriginReport): unknown => ({
  version: 1,
  kind: 'document-origin',
  ...report,
  properties: Object.fromEntries(properties),
});
