import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

export interface Author {
  readonly name: string;
  readonly email: string;
  /** File of an ssh key to sign with. */
  readonly key?: string;
  /** Day of the commit, ISO. */
  readonly date?: string;
}

const usual: Author = { name: 'Tamsin Oakrill', email: 'tamsin@example.com' };

/** Runs git as somebody, apart from the settings of the machine. */
export const git = (folder: string, words: readonly string[], author: Author = usual): string =>
  execFileSync(
    'git',
    [
      ...[
        '-c',
        `user.name=${author.name}`,
        '-c',
        `user.email=${author.email}`,
        '-c',
        'init.defaultBranch=main',
      ],
      ...(author.key ? ['-c', 'gpg.format=ssh', '-c', `user.signingKey=${author.key}`] : []),
      ...words,
    ],
    {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      env: {
        ...process.env,
        GIT_CONFIG_GLOBAL: '/dev/null',
        GIT_CONFIG_SYSTEM: '/dev/null',
        ...(author.date
          ? { GIT_AUTHOR_DATE: `${author.date}T12:00:00Z`, GIT_COMMITTER_DATE: `${author.date}T12:00:00Z` }
          : {}),
      },
    },
  ).trim();

/** Writes a file below a folder, with its folders. */
export const put = (folder: string, path: string, content: string | Uint8Array): void => {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), content);
};

/** Commits everything that is in the folder, and returns the id of the commit. */
export const commitAll = (folder: string, subject: string, author: Author = usual): string => {
  git(folder, ['add', '-A'], author);
  git(folder, ['commit', '-q', ...(author.key ? ['-S'] : []), '-m', subject], author);
  return git(folder, ['rev-parse', 'HEAD']);
};

/** Whether ssh keys can be made here. CI installs what it takes; elsewhere tests that need keys are left out and say so. */
export const canMakeKeys = spawnSync('ssh-keygen', ['-?']).error === undefined;

/** Makes an ssh key in a folder and returns its public half, as an allowed-signers file wants it. */
export const makeKey = (folder: string, name: string): string => {
  execFileSync('ssh-keygen', ['-q', '-t', 'ed25519', '-N', '', '-C', name, '-f', join(folder, name)]);
  return readFileSync(join(folder, `${name}.pub`), 'utf8')
    .split(' ')
    .slice(0, 2)
    .join(' ');
};
