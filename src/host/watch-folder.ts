import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { isReadable } from './read-folder.ts';

/** Shortest time between two looks, in milliseconds. */
const shortestPause = 400;

/** A look takes at most this share of the time. */
const share = 1 / 20;

/** Deepest folders that are looked into. */
const deepest = 40;

/** Names, sizes and times of the files that a technical file is read from. */
const signature = (root: string): string => {
  const lines: string[] = [];
  const walk = (folder: string, depth: number): void => {
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
      const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) {
        if (depth < deepest && !/(?:^|\/)(?:\.|node_modules$)[^/]*$/.test(path)) walk(path, depth + 1);
        continue;
      }
      if (!isReadable(path)) continue;
      try {
        const { size, mtimeMs, ino } = lstatSync(join(root, path));
        lines.push(`${path}\u0000${size}\u0000${mtimeMs}\u0000${ino}`);
      } catch {
        // Gone since the folder was listed.
        lines.push(path);
      }
    }
  };
  try {
    walk('', 0);
  } catch {
    // A folder that is being moved: the next look sees it whole.
    lines.push('unreadable');
  }
  return lines.join('\n');
};

export interface FolderWatch {
  /** Rejects where `changed` throws; otherwise it waits for ever. */
  readonly failed: Promise<never>;
  readonly end: () => void;
}

/**
 * Calls `changed` when a file of the folder was added, changed or taken away. It looks again and again instead of asking
 * the system to be told: that works on every file system, network folders too. The next look comes after `changed` is
 * done.
 */
export const watchFolder = (root: string, changed: () => Promise<void>): FolderWatch => {
  let known = signature(root);
  let isOver = false;
  let timer: NodeJS.Timeout | undefined;
  const failed = new Promise<never>((_, reject) => {
    const look = async (): Promise<void> => {
      const start = performance.now();
      const now = signature(root);
      const pause = Math.max(shortestPause, (performance.now() - start) / share);
      if (now !== known) {
        known = now;
        await changed();
      }
      if (!isOver) again(pause);
    };
    const again = (pause: number): void => {
      timer = setTimeout(() => look().catch(reject), pause);
    };
    again(shortestPause);
  });
  return {
    failed,
    end: () => {
      isOver = true;
      clearTimeout(timer);
    },
  };
};
