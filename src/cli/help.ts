import type { CommandDefinition } from './command.ts';
import { wrap } from './wrap.ts';

/** Help fits 80 columns everywhere, however wide the terminal is. */
const width = 79;

export const caution =
  'Plinth computes and compares; it never says that a device is safe or a file compliant. It gives no legal advice: the standards themselves, local law and qualified people decide.';

const entry = (name: string, text: string, column: number): string => {
  const first = `  ${name} `.padEnd(column);
  return first.length > column
    ? `${first.trimEnd()}\n${wrap(text, width, ' '.repeat(column))}`
    : wrap(text, width, ' '.repeat(column), first);
};

export const overview = (commands: readonly CommandDefinition[], version: string): string =>
  [
    `plinth ${version}: keeps the technical file of a medical device as records in git`,
    '',
    'plinth COMMAND [ARGUMENT] [OPTIONS]',
    '',
    ...commands.map((command) => entry(command.name, command.summary, 12)),
    '',
    entry('--help', 'this text; after a command, the help of that command', 12),
    entry('--version', 'the version', 12),
    '',
    'Exit codes: 0 clean, 1 findings, 2 the run cannot go on, 3 a bug in plinth.',
    '',
    wrap(caution, width),
    '',
  ].join('\n');

export const commandHelp = (command: CommandDefinition): string => {
  const { argument } = command;
  const several = (argument?.most ?? 1) > 1 ? '...' : '';
  const usage = `plinth ${command.name}${argument ? (argument.required ? ` ${argument.name}${several}` : ` [${argument.name}]${several}`) : ''}${command.options.length > 0 ? ' [OPTIONS]' : ''}`;
  return [
    usage,
    '',
    ...command.about.map((paragraph) => wrap(paragraph, width)),
    '',
    ...(argument ? [entry(argument.name, argument.help, 20)] : []),
    ...command.options.map((option) =>
      entry(
        `--${option.name}${option.value ? ` ${option.value}` : ''}`,
        `${option.help}${option.choices ? `: ${option.choices.join(', ')}` : ''}${option.default ? ` (default: ${option.default})` : ''}`,
        20,
      ),
    ),
    ...(argument || command.options.length > 0 ? [''] : []),
    'Examples:',
    ...command.examples.map((example) => `  ${example}`),
    '',
  ].join('\n');
};
