import type { TraceGraph } from '../graph/trace-graph.ts';
import { nearCopiesIn } from '../records/near-copies.ts';
import { holdsWording, plainWords } from '../records/plain-words.ts';
import type { Project } from '../records/project.ts';
import { proseOnly, takenIn } from '../records/prose.ts';
import { placeInBody, placeOf, type RecordOf, type TechnicalRecord } from '../records/record.ts';
import { recordTexts } from '../records/record-texts.ts';
import { otherPurposesIn, otherPurposesOf } from '../records/stated-purposes.ts';
import { isTranslation } from '../records/translation.ts';
import { type Draft, defineCheck } from './check.ts';

type Output = RecordOf<'design-output'>;

const key = 'intended_purpose';

/** The intended purpose, unless plinth.yaml still has the placeholder of `plinth start`. */
const purposeOf = (project: Project): string | undefined => {
  const purpose = project.fields.phrases?.[key];
  return purpose === undefined || /^<[^<>]{1,200}>$/.test(purpose.trim()) ? undefined : purpose;
};

const source = (project: Project) => ({
  place: project.yaml.place(['phrases', key]),
  message: `the wording "${key}"`,
});

const hint = 'Put the wording of plinth.yaml there word for word, or change it there for the whole file.';

const takesIn = (text: string): boolean => takenIn(text, 'phrase').some(({ label }) => label === key);

/** Sentences that say what something is for: `For placing ...`, `To hold ...`, `intended for`. */
const saysPurpose =
  /(?:^|[.;:!?]\s{1,3})(?:for\s(?:\p{L}{3,20}ly\s)?\p{L}{2,20}ing\b|to\s\p{L}{3,20})|\b(?:intended|meant)\s(?:for|to)\b/iu;

/** Words that only lead to where the purpose stands: `Section 1: intended purpose, indications, users`. */
const leadsElsewhere =
  /\bintended (?:purpose|use)\b(?!\s{0,3}:)|^(?:see\s|in\s)?(?:section|chapter|page|paragraph)s?\s[\d.,\sand-]{1,30}(?:of\s[^.;:]{1,40})?\.?$/i;

/** The document with the words of the instructions for use. */
const judgeWording = (
  output: Output,
  graph: TraceGraph,
  project: Project,
  purpose: string,
): readonly Draft[] => {
  const document = graph.recordOf('document', output.fields.wording ?? '');
  if (!document || document.status === 'retired') return [];
  const body = proseOnly(document.body);
  // A text that says it with a difference has a finding where it does.
  if (
    takesIn(document.body) ||
    holdsWording(body, purpose) ||
    nearCopiesIn(purpose)(body).length > 0 ||
    judgeBody(document, project, purpose).length > 0
  )
    return [];
  return [
    {
      place: placeOf(output, 'wording'),
      message: `${document.id} "${document.title}" holds the words of ${output.id} and does not state the intended purpose`,
      hint: `State it in ${document.id} with ":phrase[${key}]", or word for word.`,
      records: [output.id, document.id],
      related: [source(project), { place: placeOf(document, 'id'), message: `the words of ${output.id}` }],
    },
  ];
};

/** 23.2(b) asks for the purpose only where it is not obvious, so a label that does not speak of it is left alone. */
const judgeParticulars = (output: Output, project: Project, purpose: string): readonly Draft[] => {
  const particulars = output.fields.particulars ?? [];
  const states = output.fields.states?.[key] !== undefined;
  const isHeld = particulars.some(({ content }) => holdsWording(content, purpose) || takesIn(content));
  return particulars.flatMap(({ clause, content }, index): readonly Draft[] => {
    const isLabel = clause === '23.2(b)';
    if (!isLabel && clause !== '23.4(b)') return [];
    if (holdsWording(content, purpose) || takesIn(content) || nearCopiesIn(purpose)(content).length > 0)
      return [];
    const speaks = saysPurpose.test(content);
    if (isLabel ? !speaks && (!states || isHeld) : !speaks && leadsElsewhere.test(content)) return [];
    return [
      {
        place: placeOf(output, 'particulars', index, 'content'),
        message: `${output.id}: the particular ${clause} does not hold the intended purpose as plinth.yaml has it`,
        hint,
        records: [output.id],
        related: [source(project)],
        data: { clause },
      },
    ];
  });
};

/** Records that speak of things other than the device. */
const ofOtherThings: ReadonlySet<string> = new Set(['material', 'equipment', 'test-method', 'standard']);

/** The first words of the first sentence, for a message. */
const shortened = (text: string): string => {
  const [sentence = ''] = plainWords(text).split(/(?<=[.!?])\s/);
  const words = sentence.replace(/[.]$/, '').split(' ');
  return `${words.slice(0, 14).join(' ')}${words.length > 14 ? ' …' : ''}`;
};

const differs = (record: TechnicalRecord, project: Project, place: Draft['place'], text: string): Draft => ({
  place,
  message: `${record.id} gives as the intended purpose "${shortened(text)}", which is not the wording of plinth.yaml`,
  hint,
  records: [record.id],
  related: [source(project)],
});

const judgeBody = (record: TechnicalRecord, project: Project, purpose: string): readonly Draft[] =>
  otherPurposesOf(record, purpose).map(({ offset, length, text }) =>
    differs(record, project, placeInBody(record, offset, length), text),
  );

const judgeTexts = (record: TechnicalRecord, project: Project, purpose: string): readonly Draft[] => [
  ...recordTexts(record)
    // A particular that has to hold the purpose is judged as a whole.
    .filter(({ path }) => path !== undefined && path[0] !== 'states' && path[0] !== 'particulars')
    .flatMap(({ text, placeAt }) =>
      otherPurposesIn(text, purpose).map((passage) =>
        differs(record, project, placeAt(passage.offset, passage.length), passage.text),
      ),
    ),
  ...judgeBody(record, project, purpose),
];

export const intendedPurposeDiffers = defineCheck({
  code: 'intended-purpose-differs',
  level: 'error',
  title: 'Label, instructions or a text give another intended purpose, or none',
  basis:
    'Regulation (EU) 2017/745 Article 2(12) and Annex I 23.2(b) and 23.4(b); that the words are the same is common practice, no source',
  explain:
    'plinth.yaml has the intended purpose once, under `phrases`. The instructions for use state something else or nothing: the document that the design output names under `wording` holds neither these words nor `:phrase[intended_purpose]`, or the particular 23.4(b) does not. A label says in 23.2(b) in other words what the device is for; a label that does not speak of its purpose is left alone, since the law asks for it only where it is not obvious, unless the record states the wording under `states`. Or a text gives something else after the words "Intended purpose:", or under that heading. Passages that are nearly the wording are told by phrase-differs.\n\nThe intended purpose is by law what label, instructions and promotional material say. Class, tests and clinical evidence are those of the purpose in the file; where the user reads another one, they are those of another device.\n\nPut the wording there word for word, or take it in. If the new version is the right one, change plinth.yaml and see what else then differs. A text on another device says so in other words, or waive the finding with the reason.',
  examines: 'records, by the intended purpose',
  subjects: ({ graph, project }) => {
    const purpose = purposeOf(project);
    return purpose === undefined
      ? []
      : [...graph.records.values()]
          .filter(({ sound, status }) => sound && status !== 'retired')
          .map((record) => ({ record, purpose }));
  },
  judge: ({ record, purpose }, { graph, project }): readonly Draft[] => {
    if (ofOtherThings.has(record.type)) return [];
    const output = graph.recordOf('design-output', record.id);
    const isOwn = output !== undefined && !isTranslation(output, project);
    return [
      ...(isOwn && output.fields.kind === 'instructions for use'
        ? judgeWording(output, graph, project, purpose)
        : []),
      ...(isOwn ? judgeParticulars(output, project, purpose) : []),
      ...judgeTexts(record, project, purpose),
    ];
  },
});
