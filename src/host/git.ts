import { spawnSync } from 'node:child_process';
import { realpathSync } from 'node:fs';
import { resolve } from 'node:path';
import { largestFileBytes, type RefusedFile, type SourceFile } from '../records/source-file.ts';
import { type FolderContent, isReadable } from './read-folder.ts';

/** A commit, as far as a technical file cares. Dates are ISO with time and zone. */
export interface Commit {
  readonly id: string;
  readonly parents: readonly string[];
  readonly author: string;
  readonly authored: string;
  readonly committed: string;
  readonly subject: string;
}

/** A file of the technical file that a commit changed, with the object ids of its content before and after. */
export interface FileChange {
  /** Relative to the root of the technical file. */
  readonly path: string;
  readonly before?: string;
  readonly after?: string;
}

export interface HistoryEntry {
  readonly commit: Commit;
  readonly changes: readonly FileChange[];
}

/** What git says of the signature of one commit. */
export interface CommitSignature {
  /**
   * `good`: made with a key of the allowed signers, valid at the time. `unsigned`: none. `untrusted`: made with a key
   * that is not allowed, or not at that time. `bad`: it does not fit the commit. `unchecked`: git could not check it.
   */
  readonly state: 'good' | 'unsigned' | 'untrusted' | 'bad' | 'unchecked';
  /** The signer's name in the allowed-signers file. */
  readonly signer?: string;
  readonly fingerprint?: string;
}

/** The git repository in which a technical file lies. All answers are about the file's own folder. */
export interface Repository {
  /** Path of the technical file inside the work tree, with `/`; empty where it is the whole of it. */
  readonly prefix: string;
  /** The clone holds only the latest commits. */
  readonly isShallow: boolean;
  /** Id of the commit that a name stands for; undefined where there is none. */
  resolve(revision: string): Commit | undefined;
  /** The folder as it was at a commit; files are chosen as from the disk. */
  readFolder(commit: string): FolderContent;
  /** Whether the folder differs from the last commit, with files that git does not know counted. */
  isDirty(): boolean;
  /** Every commit up to one (default: the last) that changed the folder, newest first; a merge is compared with its first parent. */
  history(commit?: string): readonly HistoryEntry[];
  /** Content of objects by id; ids that the clone does not hold are missing. */
  readObjects(ids: readonly string[]): ReadonlyMap<string, Uint8Array>;
  /** The allowed-signers file of git's own settings; undefined where none is set. */
  allowedSigners(): string | undefined;
  /** Signature of a commit, checked by git against an allowed-signers file (an absolute path). */
  signatureOf(commit: string, allowedSigners: string): CommitSignature;
}

export type RepositoryOutcome =
  | { readonly ok: true; readonly repository: Repository }
  | { readonly ok: false; readonly reason: string };

/**
 * A repository's own settings can run programs, ask for passwords or change what is printed: none of that is wanted
 * when all that happens is reading.
 */
const settings = [
  'core.fsmonitor=false',
  'core.quotePath=false',
  'core.hooksPath=/dev/null',
  'log.showSignature=false',
  'gpg.program=gpg',
  'gpg.ssh.program=ssh-keygen',
].flatMap((setting) => ['-c', setting]);

const environment = (): NodeJS.ProcessEnv => ({
  ...process.env,
  GIT_OPTIONAL_LOCKS: '0',
  GIT_TERMINAL_PROMPT: '0',
  GIT_NO_LAZY_FETCH: '1',
  LC_ALL: 'C',
});

interface Answer {
  readonly ok: boolean;
  readonly out: Buffer;
  readonly complaint: string;
  readonly isMissing: boolean;
}

/** Largest answer that is taken from git. */
const largestAnswer = 1024 * 1024 * 1024;

const ask = (folder: string, words: readonly string[], input?: string): Answer => {
  const { status, stdout, stderr, error } = spawnSync('git', [...settings, ...words], {
    cwd: folder,
    env: environment(),
    maxBuffer: largestAnswer,
    ...(input === undefined ? {} : { input }),
  });
  return {
    ok: status === 0,
    out: stdout ?? Buffer.alloc(0),
    complaint: String(stderr ?? '').trim(),
    isMissing: (error as NodeJS.ErrnoException | undefined)?.code === 'ENOENT',
  };
};

const commitFormat = 'commit%x00%H%x00%P%x00%an%x00%aI%x00%cI%x00%s';
const commitFields = 6;

const commitFrom = (fields: readonly string[]): Commit => {
  const [id = '', parents = '', author = '', authored = '', committed = '', subject = ''] = fields;
  return { id, parents: parents.split(' ').filter(Boolean), author, authored, committed, subject };
};

/** Finds the repository around a folder. */
export const openRepository = (folder: string): RepositoryOutcome => {
  const found = ask(folder, ['rev-parse', '--is-shallow-repository', '--show-prefix', '--show-toplevel']);
  if (!found.ok) {
    const reason = found.isMissing
      ? 'git is not installed'
      : /dubious ownership/.test(found.complaint)
        ? 'the repository belongs to another user, and git will not read it'
        : 'the folder is not in a git work tree';
    return { ok: false, reason };
  }
  const [shallow = '', shownPrefix = '', top = ''] = found.out.toString('utf8').split('\n');
  const prefix = shownPrefix.replace(/\/$/, '');
  const inside = (path: string): string | undefined =>
    prefix === '' ? path : path.startsWith(`${prefix}/`) ? path.slice(prefix.length + 1) : undefined;
  /** Everything is asked from the top, with paths that are taken by the letter. */
  const root = realpathSync(top);
  const paths = ['--', prefix === '' ? '.' : `:(literal)${prefix}`];

  const readObjects = (ids: readonly string[]): ReadonlyMap<string, Buffer> => {
    const wanted = [...new Set(ids)];
    if (wanted.length === 0) return new Map();
    const { out } = ask(root, ['cat-file', '--batch'], `${wanted.join('\n')}\n`);
    const contents = new Map<string, Buffer>();
    for (let at = 0; at < out.length; ) {
      const end = out.indexOf(0x0a, at);
      if (end === -1) break;
      const [id = '', kind = '', size = ''] = out.toString('latin1', at, end).split(' ');
      at = end + 1;
      if (kind === 'missing' || kind === 'ambiguous') continue;
      contents.set(id, out.subarray(at, at + Number(size)));
      at += Number(size) + 1;
    }
    return contents;
  };

  const repository: Repository = {
    prefix,
    isShallow: shallow === 'true',
    resolve: (revision) => {
      const answer = ask(root, [
        'log',
        '-1',
        '--no-color',
        `--format=${commitFormat}`,
        '--end-of-options',
        `${revision}^{commit}`,
        '--',
      ]);
      const [, ...fields] = answer.out.toString('utf8').replace(/\n$/, '').split('\0');
      return answer.ok && fields.length === commitFields ? commitFrom(fields) : undefined;
    },
    readFolder: (commit) => {
      const tree = ask(root, [
        'ls-tree',
        '-r',
        '-z',
        '-l',
        '--end-of-options',
        commit,
        ...(prefix === '' ? [] : ['--', prefix]),
      ]);
      return folderFrom(treeEntries(tree.out.toString('utf8'), inside), readObjects);
    },
    isDirty: () =>
      ask(root, ['status', '--porcelain=v1', '-z', '--untracked-files=all', ...paths]).out.length > 0,
    history: (commit = 'HEAD') =>
      historyFrom(
        ask(root, [
          'log',
          '--topo-order',
          '--raw',
          '-z',
          '--no-renames',
          '--no-abbrev',
          '--no-color',
          '--no-ext-diff',
          '--no-textconv',
          '--diff-merges=first-parent',
          `--format=${commitFormat}`,
          '--end-of-options',
          commit,
          ...paths,
        ]).out.toString('utf8'),
        inside,
      ),
    readObjects,
    allowedSigners: () => {
      const { ok, out } = ask(root, ['config', '--type=path', '--get', 'gpg.ssh.allowedSignersFile']);
      const path = out.toString('utf8').trim();
      return ok && path !== '' ? resolve(root, path) : undefined;
    },
    signatureOf: (commit, allowedSigners) => {
      const answer = ask(root, [
        '-c',
        `gpg.ssh.allowedSignersFile=${allowedSigners}`,
        'log',
        '-1',
        '--no-color',
        '--format=%G?%x00%GS%x00%GF',
        '--end-of-options',
        commit,
        '--',
      ]);
      return signatureFrom(answer);
    },
  };
  return { ok: true, repository };
};

/** Meaning of git's letters for signatures (git-log, `%G?`). */
const signatureStates: Readonly<Record<string, CommitSignature['state']>> = {
  G: 'good',
  N: 'unsigned',
  B: 'bad',
  U: 'untrusted',
  X: 'untrusted',
  Y: 'untrusted',
  R: 'untrusted',
  E: 'unchecked',
};

const signatureFrom = ({ ok, out }: Answer): CommitSignature => {
  const [letter = '', signer = '', fingerprint = ''] = out.toString('utf8').replace(/\n$/, '').split('\0');
  const state = ok && Object.hasOwn(signatureStates, letter) ? signatureStates[letter] : undefined;
  return {
    state: state ?? 'unchecked',
    ...(signer === '' ? {} : { signer }),
    ...(fingerprint === '' ? {} : { fingerprint }),
  };
};

const none = /^0+$/;

/** Reads the answer of `git log --raw -z` with `commitFormat`. */
const historyFrom = (text: string, inside: (path: string) => string | undefined): readonly HistoryEntry[] => {
  const tokens = text.split('\0');
  const entries: { readonly commit: Commit; readonly changes: FileChange[] }[] = [];
  for (let at = 0; at < tokens.length; at += 1) {
    const token = (tokens[at] as string).replace(/^\n/, '');
    if (token === 'commit') {
      entries.push({ commit: commitFrom(tokens.slice(at + 1, at + 1 + commitFields)), changes: [] });
      at += commitFields;
    } else if (token.startsWith(':')) {
      const [, , before = '', after = ''] = token.split(' ');
      at += 1;
      const path = inside(tokens[at] ?? '');
      if (path === undefined) continue;
      entries.at(-1)?.changes.push({
        path,
        ...(none.test(before) ? {} : { before }),
        ...(none.test(after) ? {} : { after }),
      });
    }
  }
  return entries;
};

interface TreeEntry {
  readonly path: string;
  readonly mode: string;
  readonly object: string;
  readonly size: number;
}

const treeEntries = (text: string, inside: (path: string) => string | undefined): readonly TreeEntry[] =>
  text.split('\0').flatMap((line) => {
    const tab = line.indexOf('\t');
    const path = tab === -1 ? undefined : inside(line.slice(tab + 1));
    if (path === undefined) return [];
    const [mode = '', , object = '', size = ''] = line.slice(0, tab).split(/ +/);
    return [{ path, mode, object, size: Number(size) || 0 }];
  });

const linkMode = '120000';
const submoduleMode = '160000';

/** The files of a tree that would be read from the disk. Links to files of the same tree are followed once. */
const folderFrom = (
  entries: readonly TreeEntry[],
  readObjects: (ids: readonly string[]) => ReadonlyMap<string, Uint8Array>,
): FolderContent => {
  const refused: RefusedFile[] = [];
  const chosen = entries.filter(({ path, mode, size }) => {
    if (mode === submoduleMode || !isReadable(path)) return false;
    if (size <= largestFileBytes) return true;
    refused.push({ path, reason: 'too-large', detail: `${size} bytes` });
    return false;
  });
  const contents = readObjects(chosen.map((entry) => entry.object));
  const byPath = new Map(chosen.map((entry) => [entry.path, entry]));
  const files: SourceFile[] = [];
  for (const { path, mode, object } of chosen) {
    const content = contents.get(object);
    if (content === undefined) {
      refused.push({ path, reason: 'unreadable', detail: 'this clone does not hold its content' });
      continue;
    }
    if (mode !== linkMode) {
      files.push({ path, bytes: content });
      continue;
    }
    const target = byPath.get(resolvePath(path, new TextDecoder().decode(content)) ?? '');
    const linked = target && target.mode !== linkMode ? contents.get(target.object) : undefined;
    if (linked === undefined)
      refused.push({
        path,
        reason: 'outside-root',
        detail: 'it is a link to a place that is not in the folder',
      });
    // A record that is there by two names is read once.
    else if (!path.toLowerCase().endsWith('.md')) files.push({ path, bytes: linked });
  }
  return { files, refused };
};

/** Target of a relative link, from the root of the folder; undefined where it leads outside. */
const resolvePath = (from: string, to: string): string | undefined => {
  const steps = from.split('/').slice(0, -1);
  for (const step of to.split('/')) {
    if (step === '..') {
      if (steps.pop() === undefined) return undefined;
    } else if (step !== '.' && step !== '') steps.push(step);
  }
  return to.startsWith('/') ? undefined : steps.join('/');
};
