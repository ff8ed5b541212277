import type { CommandDefinition, OptionDefinition } from './command.ts';

const asOf: OptionDefinition = {
  name: 'as-of',
  value: 'DATE',
  help: 'day by which dates are judged (calibrations, deviations, waivers, actions), for example 2026-06-01 (default: as_of in plinth.yaml, else today)',
};
const format: OptionDefinition = {
  name: 'format',
  value: 'FORM',
  choices: ['text', 'json', 'sarif', 'junit', 'github', 'gitlab'],
  default: 'text',
  help: 'form of the report',
};
const signers: OptionDefinition = {
  name: 'signers',
  value: 'FILE',
  help: 'allowed signers (as for git and ssh-keygen) by which signed approvals are judged, where plinth.yaml asks for signatures; take the file from a place that the change under review cannot write',
};
const since: OptionDefinition = {
  name: 'since',
  value: 'STATE',
  help: 'git revision, or folder with plinth.yaml: adds to the browsable copy what changed since then and what that puts in doubt',
};
const failOn: OptionDefinition = {
  name: 'fail-on',
  value: 'LEVEL',
  choices: ['error', 'warning', 'note'],
  default: 'error',
  help: 'lowest level of a finding that gives exit code 1',
};
/** Options of commands that make one document. */
const documentOptions: readonly OptionDefinition[] = [
  {
    name: 'format',
    value: 'FORM',
    choices: ['text', 'json', 'html', 'docx'],
    default: 'text',
    help: 'form of the report',
  },
  {
    name: 'output',
    value: 'FILE',
    help: 'file to write; without it, text and json go to the terminal, html and docx to the folder build',
  },
];
const folder = {
  name: 'FOLDER',
  help: 'the technical file: the folder with plinth.yaml (default: this folder, else content)',
};

/** All commands. To add one: its file in commands/, its test, an entry here. */
export const commands: readonly CommandDefinition[] = [
  {
    name: 'start',
    argument: { name: 'FOLDER', help: 'where to start it (default: content)' },
    summary: 'start a new technical file',
    about: ['Lays down plinth.yaml and the first documents. Files that exist are left as they are.'],
    options: [],
    examples: ['plinth start', 'plinth start my-device'],
    load: () => import('./commands/start.ts'),
  },
  {
    name: 'new',
    argument: {
      name: 'TYPE',
      help: 'record type, for example user-need',
      required: true,
    },
    summary: 'add a record with the next free id',
    about: [
      'Writes a record with every field of its type: required ones to fill in, the others as comments, each with what it means and an example.',
    ],
    options: [
      { name: 'title', value: 'TEXT', help: 'title of the record' },
      { name: 'id', value: 'ID', help: 'id, instead of the next free one' },
      {
        name: 'table',
        value: 'KEY',
        help: 'for legal-requirement: a row to decide on for every clause of the table that is not answered yet',
      },
      {
        name: 'in',
        value: 'FOLDER',
        help: 'the technical file (default: this folder, else content)',
      },
    ],
    examples: [
      'plinth new user-need --title "One-handed dosing"',
      'plinth new legal-requirement --table eu-mdr-annex-1',
    ],
    load: () => import('./commands/new.ts'),
  },
  {
    name: 'check',
    argument: {
      name: 'FOLDER',
      help: `${folder.help}; or a Word file, to learn whether it belongs to the file as it is now`,
    },
    summary: 'check the technical file and recompute every verdict',
    about: [
      'Reads every record, follows every link, evaluates the raw data again and reports what does not hold, with file, line and column.',
      'Given a .docx file, it tells whether that file was edited since it was written, from which state of the technical file it was compiled, and whether it would say the same today. Exit code 0: unedited, and the same today.',
    ],
    options: [
      format,
      asOf,
      failOn,
      {
        name: 'new-since',
        value: 'REVISION',
        help: 'fail only on findings that the file did not have at this git revision; all are reported',
      },
      signers,
      {
        name: 'in',
        value: 'FOLDER',
        help: 'with a Word file: the technical file (default: this folder, else content)',
      },
    ],
    examples: [
      'plinth check',
      'plinth check content --as-of 2026-06-01 --format json',
      'plinth check --new-since origin/main --format github',
      'plinth check build/DOC-01-design-trace-matrix.docx',
    ],
    load: () => import('./commands/check.ts'),
  },
  {
    name: 'approve',
    argument: { name: 'ID', most: 1000, help: 'ids of the records to approve' },
    summary: 'approve records: write who approved what, and when',
    about: [
      'Writes an approval into each record, with the digest of its content and of every record that it relies on. Nothing else in the file changes. All records are written, or none.',
      'A record gets the status "approved" when every role that plinth.yaml asks for has approved it.',
      'Refused are records with errors (but for those that say that something has yet to follow, such as an input without a protocol), retired records, roles that are not those of the type, persons who must be independent and are not, and records that rely on what is not approved; name both in one call to approve them together.',
      'Who gives a name here has not proven to be that person. Whether it counts as a signature depends on your procedures.',
    ],
    options: [
      { name: 'name', value: 'NAME', help: 'the person who approves; always needed' },
      {
        name: 'role',
        value: 'ROLE',
        help: 'role in which they approve (default: the one that the records need, where there is only one)',
      },
      { name: 'meaning', value: 'TEXT', help: 'what the approval means (default: approved)' },
      { name: 'date', value: 'DATE', help: 'day of the approval (default: today)' },
      { name: 'lapsed', help: 'every record whose approval by the role has lapsed; with ids, those of them' },
      {
        name: 'because',
        value: 'ID',
        help: 'instead of ids: every record whose approval by the role lapsed because this record changed',
      },
      {
        name: 'no-effect',
        value: 'REASON',
        help: 'approve again, and write down why the change has no technical effect; refused where more than wording changed, or git cannot show it',
      },
      {
        name: 'despite',
        value: 'CODES',
        help: 'approve although these errors stand on the records; codes of findings, parted by commas',
      },
      { name: 'keep-status', help: 'leave the status as it is' },
      { name: 'dry-run', help: 'say what would be written, and write nothing' },
      { name: 'in', value: 'FOLDER', help: 'the technical file (default: this folder, else content)' },
    ],
    examples: [
      'plinth approve DI-01 DI-02 --role "quality lead" --name "FULL NAME"',
      'plinth approve --because UN-03 --role "design engineer" --name "FULL NAME"',
      'plinth approve --lapsed --role reviewer --name "FULL NAME" --no-effect "Typo."',
    ],
    load: () => import('./commands/approve.ts'),
  },
  {
    name: 'build',
    argument: folder,
    summary: 'write the documents (Word, PDF, HTML, CSV) and the browsable copy',
    about: [
      'Checks the technical file, compiles its documents and writes them to the output folder. Documents state how many findings stand. The folder must lie outside of the technical file, which holds nothing but records and their data.',
      'A file of an earlier build is left as it is where nothing in it has changed but the state that it names as its origin. The list built-files.json has the digests by which this is known.',
      'The browsable copy is a folder of pages: open its index.html by a double click, or put it on any web host. Files of an earlier copy that are no longer needed are taken away. With --only there is none.',
      'Word documents take their looks from the file that plinth.yaml, or the front matter of a document, names as house_style: styles, numbers of headings, paper, running heads and logo. What it lacks is added, and said.',
    ],
    options: [
      {
        name: 'output',
        value: 'FOLDER',
        default: 'build',
        help: 'where the files go',
      },
      { name: 'only', value: 'IDS', help: 'build these documents alone, such as DOC-01,DOC-06' },
      {
        name: 'anew',
        help: 'write also the files that are there and say the same, with the origin of today',
      },
      { name: 'pdf', help: 'also a tagged PDF of every Word document, printed by LibreOffice' },
      {
        name: 'site',
        value: 'FOLDER',
        help: 'where the browsable copy goes (default: the folder "site" in the output folder)',
      },
      since,
      { name: 'no-site', help: 'documents only' },
      format,
      asOf,
      failOn,
      signers,
    ],
    examples: [
      'plinth build',
      'plinth build --only DOC-01 --output out',
      'plinth build --pdf',
      'plinth build --since v1.2',
    ],
    load: () => import('./commands/build.ts'),
  },
  {
    name: 'assemble',
    argument: { name: 'ID', help: 'the submission, for example SB-01 (default: the only one)' },
    summary: 'write the folder of a submission',
    about: [
      'Lays the documents, records and raw data of a submission into one folder, in the order of its table of contents: numbered folders, each document once under its usual name, an index in Word and HTML that leads to every file, what is missing and why, and a manifest with the SHA-256 of each file.',
      'The folder is written under another name and put in its place as a whole. The same technical file gives the same bytes. It is handed in by people, after they have looked at it.',
    ],
    options: [
      { name: 'output', value: 'FOLDER', default: 'build', help: 'where the folder goes' },
      { name: 'in', value: 'FOLDER', help: 'the technical file (default: this folder, else content)' },
      format,
      asOf,
      failOn,
      signers,
    ],
    examples: ['plinth assemble SB-01', 'plinth assemble SB-01 --output handed-in'],
    load: () => import('./commands/assemble.ts'),
  },
  {
    name: 'serve',
    argument: folder,
    summary: 'show the browsable copy while you write',
    about: [
      'Shows the pages that "plinth build" writes at an address of this machine, and shows them anew when a file of the technical file changes. Nothing is written to the disk.',
      'Only browsers on this machine can see it: it listens on the loopback address 127.0.0.1, and answers to its own names only. To show the copy to others, put what "plinth build" writes on a web host.',
    ],
    options: [
      {
        name: 'port',
        value: 'NUMBER',
        default: '8640',
        help: 'port at which it listens; 0 takes any that is free',
      },
      since,
      asOf,
      signers,
    ],
    examples: ['plinth serve', 'plinth serve content --port 8641', 'plinth serve --since HEAD'],
    load: () => import('./commands/serve.ts'),
  },
  {
    name: 'impact',
    argument: {
      name: 'STATE',
      most: 2,
      help: 'git revisions, or folders with plinth.yaml. None: the last commit and the work tree. One: that state and the work tree. Two: the one and the other.',
    },
    summary: 'show what a change puts in doubt',
    about: [
      'Compares two states of the technical file: what changed in content, which approvals lapse, which results must be repeated or argued anew and through which path, which risks must be evaluated and which documents issued again.',
      'It tells what the records and links show. People decide what a change means. The exit code is 0 whatever is found; "plinth check" is the command that fails.',
    ],
    options: [
      { name: 'in', value: 'FOLDER', help: 'the technical file (default: this folder, else content)' },
      { name: 'change', value: 'ID', help: 'design change for which the report is made' },
      ...documentOptions,
      asOf,
    ],
    examples: ['plinth impact', 'plinth impact v1.2 HEAD', 'plinth impact main --change DC-01 --format docx'],
    load: () => import('./commands/impact.ts'),
  },
  {
    name: 'clauses',
    argument: { name: 'TABLE', help: 'key of a clause table; none: list the tables' },
    summary: 'list clause tables, or compare two editions of one',
    about: [
      'Without TABLE it lists the clause tables at hand with edition, rows and how many of them the technical file answers. With TABLE it compares two editions: clauses that are new, gone or read otherwise, and the records that hang on them.',
      'A technical file brings tables of its own in clause-tables/, for example a consolidated edition of a regulation. Titles are own words, to find a clause by; people read the texts. The exit code is 0 whatever is found.',
    ],
    options: [
      { name: 'from', value: 'EDITION', help: 'edition to start from (default: the one in use)' },
      { name: 'to', value: 'EDITION', help: 'edition to compare with (default: the latest of the others)' },
      { name: 'in', value: 'FOLDER', help: 'the technical file (default: this folder, else content)' },
      ...documentOptions,
    ],
    examples: ['plinth clauses', 'plinth clauses eu-mdr-annex-1 --to 2027-01-01'],
    load: () => import('./commands/clauses.ts'),
  },
  {
    name: 'vouch',
    argument: {
      name: 'ID',
      most: 50,
      help: 'records to walk from: a need, an input, a risk, a requirement, a result',
    },
    summary: 'walk from a claim to the measurement and to the need',
    about: [
      'Shows every step from a record down to the raw data that show it, and up to the needs and risks that it answers to: status, standing, approvals, dates, digests. This is the walk that an auditor samples.',
      'Exit code 0: every chain holds. 1: somewhere it does not, and the report says where.',
    ],
    options: [
      { name: 'sample', value: 'NUMBER', help: 'instead of ids: draw so many records at random' },
      {
        name: 'seed',
        value: 'TEXT',
        help: 'seed of the draw, so that it can be repeated (default: the as-of date)',
      },
      { name: 'type', value: 'TYPE', default: 'design-input', help: 'record type to draw from' },
      { name: 'in', value: 'FOLDER', help: 'the technical file (default: this folder, else content)' },
      ...documentOptions,
      asOf,
      signers,
    ],
    examples: [
      'plinth vouch DI-09',
      'plinth vouch --sample 5 --seed "audit of 12 March"',
      'plinth vouch UN-08 --format docx',
    ],
    load: () => import('./commands/vouch.ts'),
  },
  {
    name: 'plan',
    summary: 'compare sampling plans for a confidence and reliability',
    about: [
      'Shows the cheapest plans that support a statement side by side: counting failures with 0 to 3 allowed, measuring with a tolerance factor, and unit by unit; how many units each takes, and how often it passes at the quality that you expect.',
      'The expected quality comes from earlier units: a fraction, or a mean and a standard deviation against limits. It needs no technical file.',
    ],
    options: [
      {
        name: 'confidence',
        value: 'SHARE',
        help: 'confidence of the statement, for example 0.95; always needed',
      },
      {
        name: 'reliability',
        value: 'SHARE',
        help: 'share of units that shall conform, for example 0.99; always needed',
      },
      { name: 'fraction', value: 'SHARE', help: 'share of units expected not to conform, for example 0.001' },
      { name: 'mean', value: 'NUMBER', help: 'expected mean; with --sd and a limit, instead of --fraction' },
      { name: 'sd', value: 'NUMBER', help: 'expected standard deviation from unit to unit' },
      { name: 'lower', value: 'NUMBER', help: 'smallest value allowed' },
      { name: 'upper', value: 'NUMBER', help: 'largest value allowed' },
      { name: 'unit', value: 'UNIT', help: 'unit of mean, standard deviation and limits, for the report' },
      {
        name: 'chance',
        value: 'SHARE',
        default: '0.90',
        help: 'probability with which a plan shall pass the expected quality',
      },
      ...documentOptions,
    ],
    examples: [
      'plinth plan --confidence 0.95 --reliability 0.95 --fraction 0.005',
      'plinth plan --confidence 0.95 --reliability 0.99 --mean 35 --sd 1.2 --lower 30',
    ],
    load: () => import('./commands/plan.ts'),
  },
  {
    name: 'analyse',
    argument: {
      name: 'FILE',
      help: 'CSV file with a heading; units in brackets, as in "force [N]"',
      required: true,
    },
    summary: 'look at a column of readings as a verification record would',
    about: [
      'Shows what the readings of a CSV file say against limits: values, normality, bound, verdict with its reason, capability and a histogram, by the code that judges verification records.',
      'It is a quick look and no verification record: nothing was planned before the readings were seen.',
      'Exit code 0: pass. 1: fail or undecided.',
    ],
    options: [
      { name: 'column', value: 'NAME', help: 'column to analyse (default: the only one of numbers)' },
      { name: 'lower', value: 'NUMBER', help: 'smallest value allowed' },
      { name: 'upper', value: 'NUMBER', help: 'largest value allowed' },
      {
        name: 'unit',
        value: 'UNIT',
        help: 'unit of the limits, and of the column where its heading gives none (default: that of the heading)',
      },
      { name: 'confidence', value: 'SHARE', help: 'confidence of the statement, for example 0.95' },
      { name: 'reliability', value: 'SHARE', help: 'share of units that must conform, for example 0.99' },
      {
        name: 'method',
        value: 'NAME',
        default: 'normal-tolerance-interval',
        help: 'evidence method; "plinth explain" lists them',
      },
      { name: 'accept', value: 'NUMBER', help: 'failing units allowed, for attribute' },
      { name: 'capability-index', value: 'NUMBER', help: 'smallest Ppk, for capability' },
      { name: 'power', value: 'NUMBER', help: 'Box-Cox power, for transformed-normal-tolerance-interval' },
      { name: 'compare', value: 'FROM,TO', help: 'the two groups to compare, for equivalence' },
      { name: 'unit-id', value: 'NAME', help: 'column that names the unit (default: each row is a unit)' },
      {
        name: 'per-unit',
        value: 'WHICH',
        choices: ['maximum', 'minimum', 'mean'],
        help: 'how several readings of one unit become one',
      },
      { name: 'lot', value: 'NAME', help: 'column that names the lot' },
      { name: 'group', value: 'NAME', help: 'column that names the group, for equivalence' },
      {
        name: 'decimal',
        value: 'SIGN',
        choices: ['.', ','],
        default: '.',
        help: 'decimal sign of the readings',
      },
      ...documentOptions,
    ],
    examples: [
      'plinth analyse pull.csv --lower 30 --confidence 0.95 --reliability 0.99',
      'plinth analyse inspection.csv --column seal --method all-units --format docx',
    ],
    load: () => import('./commands/analyse.ts'),
  },
  {
    name: 'comments',
    argument: { name: 'FILE', help: 'Word file that came back', required: true },
    summary: "list reviewers' comments and tracked changes",
    about: [
      'Reads a Word file that came back and traces every comment, reply and tracked change to the record beside which it stands, with the file and the line.',
      'Exit code 0: nothing is open. 1: comments that are not resolved, or tracked changes.',
    ],
    options: [
      { name: 'in', value: 'FOLDER', help: 'the technical file (default: this folder, else content)' },
      format,
    ],
    examples: ['plinth comments returned.docx', 'plinth comments returned.docx --format github'],
    load: () => import('./commands/comments.ts'),
  },
  {
    name: 'explain',
    argument: {
      name: 'CODE',
      help: 'code of a finding, name of an evidence method, or a record type',
    },
    summary: 'explain a finding, a method or a record type',
    about: ['Without a name it lists what can be explained.'],
    options: [],
    examples: [
      'plinth explain need-without-input',
      'plinth explain normal-tolerance-interval',
      'plinth explain design-input',
    ],
    load: () => import('./commands/explain.ts'),
  },
];
