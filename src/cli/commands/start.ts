import { existsSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { writeNew } from '../../host/write-files.ts';
import type { CommandRun } from '../command.ts';
import { Refusal } from '../refusal.ts';
import { starterFiles } from '../starter-files.ts';

export const run: CommandRun = async (request, terminal) => {
  const name = request.argument ?? 'content';
  const folder = resolve(terminal.folder, name);
  if (existsSync(folder) && !statSync(folder).isDirectory())
    throw new Refusal(`"${name}" is a file, not a folder`, 'Name another folder.');
  if (existsSync(join(folder, 'plinth.yaml')))
    throw new Refusal(
      `"${name}" holds a technical file already`,
      'Nothing was changed. Use "plinth new TYPE" to add records.',
    );
  for (const [path, text] of starterFiles) {
    const written = writeNew(join(folder, path), text);
    terminal.out(`${written ? 'wrote' : 'left '}  ${name}/${path}\n`);
  }
  const inOption = name === 'content' ? '' : ` --in ${name}`;
  const place = name === 'content' ? '' : ` ${name}`;
  // Documents do not lie among the records that they are made of.
  const output = folder === resolve(terminal.folder) ? ' --output ../build' : '';
  terminal.out(`
Next:
  1. Replace the texts in angle brackets in ${name}/plinth.yaml and
     ${name}/risks/RP-01.md, the risk management plan.
  2. plinth new user-need${inOption} --title "One-handed dosing"
  3. plinth new design-input${inOption}, and fill in its limits
  4. plinth check${place}
  5. plinth build${place}${output}
`);
  return 0;
};
