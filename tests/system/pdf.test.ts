import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { documentText } from '../../src/document/document-text.ts';
import { findLibreOffice, printPdf } from '../../src/host/print-pdf.ts';
import { readHouseStyle } from '../../src/house/house-style.ts';
import { wantedStyles } from '../../src/writers/docx/styles.ts';
import { writeDocx } from '../../src/writers/docx/write-docx.ts';
import { steadyPdf } from '../../src/writers/pdf/steady-pdf.ts';
import { emptyFolder, runPlinth } from '../cli/run-plinth.ts';
import { germanHouse } from '../house/house-files.ts';
import { projectRoot } from '../support/technical-file.ts';
import { plainPng } from '../writers/plain-png.ts';
import { sampleDocument } from '../writers/sample-document.ts';
import { listedHeadings } from './contents-list.ts';
import { inFolder, run } from './programs.ts';

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const rasterise = (_svg: string, width: number, height: number) => plainPng(width, height);

const printed = async (docx: Uint8Array): Promise<Uint8Array> => {
  const result = await printPdf(findLibreOffice() ?? '', docx, { date: '2026-11-02', limitSeconds: 200 });
  if (!result.ok) throw new Error(result.reason);
  return steadyPdf(result.bytes, '2026-11-02', digestOf);
};

/** What poppler's tools say of a PDF. */
const asked = (program: string, words: readonly string[], pdf: Uint8Array): string =>
  inFolder((folder) => {
    const file = join(folder, 'document.pdf');
    writeFileSync(file, pdf);
    return run(program, [...words, file, ...(program === 'pdftotext' ? ['-'] : [])]).output;
  });

const { bytes: docx } = await writeDocx(sampleDocument, { rasterise });
const pdf = await printed(docx);
const bare = (text: string): string => text.replace(/\s+/g, '');

describe('the PDF of a document', () => {
  test('is tagged, with language and title', () => {
    const source = Buffer.from(pdf).toString('latin1');
    expect(source).toContain('/StructTreeRoot');
    expect(source).toContain(`/Lang(${sampleDocument.language})`);
    expect(source).toContain('/DisplayDocTitle true');
    const facts = asked('pdfinfo', [], pdf);
    expect(facts).toMatch(/^Tagged:\s+yes$/m);
    expect(facts).toMatch(new RegExp(`^Title:\\s+${sampleDocument.title}$`, 'm'));
    // Heads of tables, headings and figures are told as such to those who listen (PDF 1.7, 14.8.4).
    const structure = asked('pdfinfo', ['-struct'], pdf);
    for (const kind of ['H1', 'H2', 'Table', 'TH', 'Figure', 'TOC', 'Note'])
      expect(structure).toContain(kind);
  });

  test('leads to other files by paths from its own place, so that a folder can be handed on', async () => {
    const link = (path: string) => ({
      kind: 'file-link' as const,
      path,
      children: [{ kind: 'text' as const, value: path }],
    });
    const { bytes } = await writeDocx(
      {
        ...sampleDocument,
        blocks: [{ kind: 'paragraph', children: [link('DOC-02-inputs.docx'), link('../data/VR-01.csv')] }],
      },
      { rasterise },
    );
    const source = Buffer.from(await printed(bytes)).toString('latin1');
    expect(source).toContain('/URI(DOC-02-inputs.docx)');
    expect(source).toContain('/URI(../data/VR-01.csv)');
    expect(source).not.toContain('file:/');
  });

  // What a checker of PDF/UA-1 (ISO 14289-1) reports first: 7.1 real content is tagged and standard tags are not given
  // another meaning, 7.3 figures have words for those who do not see them, 7.5 tables have heads.
  test('has a tag for every line that is no running head, and words for every figure', () => {
    const structure = asked('pdfinfo', ['-struct-text'], pdf);
    const tagged = bare(
      [...structure.matchAll(/^\s*"(.*)"\s*$/gm)].map(([, line]) => line).join(''),
    ).normalize('NFKC');
    const lines = documentText(sampleDocument)
      .split(/[\n\t]/)
      .map((line) => bare(line).normalize('NFKC'))
      .filter((line) => line !== '');
    expect(lines.filter((line) => !tagged.includes(line))).toEqual([]);
    const source = Buffer.from(pdf).toString('latin1');
    const elements = source
      .split('/Type/StructElem')
      .slice(1)
      .map((part) => part.slice(0, part.indexOf('endobj')));
    const figures = elements.filter((element) => /\/S\/Figure\n/.test(element));
    expect(figures).toHaveLength(2);
    for (const figure of figures) expect(figure).toContain('/Alt');
    const tables = elements.filter((element) => /\/S\/Table\n/.test(element)).length;
    expect(tables).toBeGreaterThan(2);
    const [, roles = ''] = /\/RoleMap<<([\s\S]*?)>>/.exec(source) ?? [];
    const standard =
      /^\/(Document|Part|Art|Sect|Div|BlockQuote|Caption|TOC|TOCI|Index|P|H[1-6]?|L|LI|Lbl|LBody|Table|TR|TH|TD|THead|TBody|TFoot|Span|Quote|Note|Reference|Code|Link|Annot|Figure|Formula|Form)\/(.+)$/gm;
    expect(
      [...roles.matchAll(standard)].filter(([, tag, role]) => tag !== role).map(([entry]) => entry),
    ).toEqual([]);
  });

  test('has the number of pages that its foot tells', () => {
    const pages = Number(/^Pages:\s+(\d+)$/m.exec(asked('pdfinfo', [], pdf))?.[1]);
    expect(pages).toBe(8);
    expect(asked('pdftotext', ['-f', String(pages)], pdf)).toContain(`Page ${pages} of ${pages}`);
  });

  test('says every line that the model says', () => {
    const text = bare(asked('pdftotext', ['-raw'], pdf));
    const lines = documentText(sampleDocument)
      .split('\n')
      .flatMap((line) => line.split('\t'))
      .map((line) => bare(line).normalize('NFKC'))
      .filter((line) => line !== '');
    expect(lines.length).toBeGreaterThan(50);
    for (const line of lines) expect(text.normalize('NFKC')).toContain(line);
  });

  test('the same bytes on a second run, in a house style too', async () => {
    expect(digestOf(await printed(docx))).toBe(digestOf(pdf));
    const read = readHouseStyle(germanHouse(), wantedStyles());
    if (!read.ok) throw new Error(read.reason);
    const housed = (await writeDocx(sampleDocument, { rasterise, house: read.style })).bytes;
    expect(digestOf(await printed(housed))).toBe(digestOf(await printed(housed)));
  });
});

describe('build --pdf', () => {
  const top = emptyFolder();
  cpSync(join(projectRoot, 'content'), join(top, 'content'), { recursive: true });

  test('writes one beside every Word document, while another LibreOffice is open', () => {
    const profile = join(top, 'open');
    mkdirSync(profile);
    const open = spawn(
      findLibreOffice() ?? '',
      [`-env:UserInstallation=file://${profile}`, '--headless', '--accept=pipe,name=plinthtest;urp'],
      { stdio: 'ignore', detached: true },
    );
    try {
      const { code, error } = runPlinth(top, ['build', '--only', 'DOC-06,DOC-09', '--pdf']);
      expect(error).toBe('');
      expect(code).toBe(0);
    } finally {
      process.kill(-(open.pid ?? 0), 'SIGKILL');
    }
    const names = readdirSync(join(top, 'build'));
    expect(names).toEqual(
      expect.arrayContaining(['DOC-06-risk-management-plan.docx', 'DOC-06-risk-management-plan.pdf']),
    );
    expect(names.filter((name) => name.startsWith('.'))).toEqual([]);
    const file = readFileSync(join(top, 'build/DOC-06-risk-management-plan.pdf'));
    expect(file.subarray(0, 5).toString()).toBe('%PDF-');
    expect(asked('pdfinfo', [], file)).toMatch(/^Title:\s+Risk management plan$/m);
    // Links to other documents stay in the folder, and say nothing of where they were printed.
    const links = asked('pdfinfo', ['-url'], file);
    expect(links).toMatch(/\bDOC-\d\d-[a-z-]+\.pdf#rec5F[A-Z]{2}5F\d\d$/m);
    expect(links).not.toMatch(/file:|\.docx|plinth-pdf/);
    // The names that links from other documents use are there.
    const places = asked(
      'pdfinfo',
      ['-dests'],
      readFileSync(join(top, 'build/DOC-09-risk-management-report.pdf')),
    );
    expect(places).toMatch(/"rec5FRK5F01"$/m);
  });

  // The Word file names the pages of Word, by which this report is a page longer than LibreOffice makes it.
  test('names in the contents list the pages of the PDF itself', () => {
    const name = join(top, 'build/DOC-09-risk-management-report.pdf');
    const pages = asked('pdftotext', ['-layout'], readFileSync(name)).split('\f').slice(0, -1);
    const entries = listedHeadings(pages);
    expect(entries.length).toBeGreaterThan(10);
    expect(entries.filter(({ listed, found }) => listed !== found)).toEqual([]);
  });
});
