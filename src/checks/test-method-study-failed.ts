import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const testMethodStudyFailed = defineCheck({
  code: 'test-method-study-failed',
  level: 'error',
  title: 'The study of a test method has not passed',
  basis: 'common practice, no source',
  explain:
    'The study of the test method does not show that it can tell good units from bad ones: too much of the tolerance is taken up by the gauge and its operators, inspectors disagree, or the design of the study does not allow a verdict. Every protocol that uses the method rests on it.\n\nImprove the fixture, the instruction or the training, and repeat the study; or judge by another method, and assess what has been measured with this one. Where the study is stated as passed against its data, that difference is reported instead.',
  examines: 'test methods with a study',
  subjects: ({ graph, evidence }) =>
    graph.recordsOf('test-method').flatMap((method) => {
      const found = evidence.get(method.id);
      return method.status !== 'retired' && method.fields.study && found
        ? [{ method, study: method.fields.study, found }]
        : [];
    }),
  judge: ({ method, study, found }, { graph }) => {
    const isReportedElsewhere =
      found.findings.length > 0 || (found.verdict === 'fail' && study.result === 'pass');
    if (found.verdict === 'pass' || isReportedElsewhere) return [];
    const users = graph.sources(method.id, 'uses', 'verification-protocol');
    const outcome = found.verdict === 'fail' ? 'failed' : 'does not decide';
    return [
      {
        place: placeOf(method, 'study', study.result === undefined ? 'kind' : 'result'),
        message: `the study of ${method.id} ${outcome}: ${found.reason}`,
        hint: 'Improve the method and repeat the study, or measure in another way.',
        records: [method.id, ...users.map((protocol) => protocol.id)],
        related: users.map((protocol) => ({
          place: placeOf(protocol, 'uses'),
          message: `${protocol.id} uses ${method.id}`,
        })),
        data: { verdict: found.verdict },
      },
    ];
  },
});
