import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import { findMergeConflict } from '../../src/records/merge-conflict.ts';
import { inputsFrom } from '../support/technical-file.ts';

const yaml = 'device: { name: Applicator, maker: Harrow Lane Instruments }\n';
const need = (middle: string, body = 'A need.'): string =>
  `---\nid: UN-01\ntype: user-need\ntitle: A need\nstatus: draft\n${middle}---\n${body}\n\n## Rationale\nWhy.\n`;
const conflict = (ours: string, theirs: string): string =>
  `<<<<<<< HEAD\n${ours}\n=======\n${theirs}\n>>>>>>> other\n`;

const findingsOf = (text: string) =>
  analyse(
    inputsFrom(
      new Map([
        ['plinth.yaml', yaml],
        ['UN-01.md', text],
      ]),
    ),
    [],
  );

describe('a merge that was not finished', () => {
  test('in the front matter: one finding at its first mark, and the record stays known', () => {
    const { findings, graph } = findingsOf(
      need(conflict('needed_by: [dental surgeon]', 'needed_by: [dental assistant]')),
    );
    expect(findings.map(({ code, place, records }) => [code, place.line, records])).toEqual([
      ['merge-conflict', 6, ['UN-01']],
    ]);
    expect(graph.record('UN-01')?.sound).toBe(false);
    expect(graph.record('UN-01')?.fields['needed_by']).toEqual(['dental surgeon']);
  });

  test('in the body, with the three-way marks and line ends of Windows', () => {
    const body = '<<<<<<< HEAD\r\nOne.\r\n||||||| base\r\nNone.\r\n=======\r\nTwo.\r\n>>>>>>> other\r\n';
    const { findings } = findingsOf(need('needed_by: [dental surgeon]\n', body));
    expect(findings.map(({ code, place }) => [code, place.line])).toEqual([['merge-conflict', 8]]);
    expect(
      findMergeConflict(body)
        ?.text.split('\n')
        .map((line) => line.trim()),
    ).toEqual(['', 'One.', '', '', '', '', '', '']);
  });

  test('a rule or a heading underlined with equals signs is none', () => {
    expect(findMergeConflict('Title\n=======\n\nText.\n')).toBeUndefined();
    expect(findMergeConflict('<<<<<<< alone\n')).toBeUndefined();
  });
});
