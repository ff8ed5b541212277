import { printable } from '../writers/report-text/printable.ts';
import type { Answer, DocumentOriginReport } from './document-origin.ts';
import { wrap } from './wrap.ts';

const sentences: Readonly<
  Record<'unedited' | 'currentState' | 'currentText', Readonly<Record<Answer, string>>>
> = {
  unedited: {
    yes: 'The words are those that were written: nobody edited the file since.',
    no: 'The words are not those that were written: somebody edited the file since.',
    unknown: 'Whether it was edited cannot be told: the file carries no digest of its words.',
  },
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
    line(sentences.unedited[report.unedited]),
    line(`${sentences.currentState[report.currentState]}${state === undefined ? '' : ` ${state}`}`),
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
