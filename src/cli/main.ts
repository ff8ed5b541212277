import { settleEngine } from '../host/engine-settings.ts';
import type { Terminal } from './command.ts';
import { commands } from './commands.ts';

/** Runs one command. Nothing but this function sets the exit code or prints an unexpected error. */
const main = async (words: readonly string[]): Promise<number> => {
  settleEngine();
  const colour =
    process.stdout.isTTY === true && process.env['NO_COLOR'] === undefined && process.env['TERM'] !== 'dumb';
  let pending = false;
  const terminal: Terminal = {
    out: (text) => process.stdout.write(text),
    progress: (text) => {
      if (process.stderr.isTTY !== true) return;
      if (pending) process.stderr.write('\r\u001b[K');
      process.stderr.write(text);
      pending = text !== '';
    },
    colour,
    width: Math.max(40, Math.min(process.stdout.columns ?? 80, 100)),
    folder: process.cwd(),
  };
  const fail = (text: string): void => {
    terminal.progress('');
    process.stderr.write(text);
  };
  const [name, ...rest] = words;
  try {
    if (name === '--version' || name === '-v') {
      const { readOwnVersion } = await import('../host/own-files.ts');
      terminal.out(`${readOwnVersion()}\n`);
      return 0;
    }
    if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
      const [{ overview }, { readOwnVersion }] = await Promise.all([
        import('./help.ts'),
        import('../host/own-files.ts'),
      ]);
      terminal.out(overview(commands, readOwnVersion()));
      return name === undefined ? 2 : 0;
    }
    const definition = commands.find((command) => command.name === name);
    if (!definition) {
      const { nearestName } = await import('../records/nearest-name.ts');
      const near = nearestName(
        name,
        commands.map((command) => command.name),
      );
      fail(
        `plinth: unknown command "${name}"\n${near ? `Did you mean "plinth ${near}"?` : 'Run "plinth --help" for the commands.'}\n`,
      );
      return 2;
    }
    if (rest.includes('--help') || rest.includes('-h')) {
      const { commandHelp } = await import('./help.ts');
      terminal.out(commandHelp(definition));
      return 0;
    }
    const [{ readArguments }, { run }] = await Promise.all([import('./arguments.ts'), definition.load()]);
    return await run(readArguments(definition, rest), terminal);
  } catch (error) {
    const { Refusal } = await import('./refusal.ts');
    if (error instanceof Refusal) {
      fail(`plinth: ${error.message}\n${error.hint}\n`);
      return 2;
    }
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'EPIPE') return 0;
    if (typeof code === 'string' && /^E[A-Z]+$/.test(code)) {
      const { systemMessage } = await import('../host/read-folder.ts');
      fail(
        `plinth: a file could not be read or written: ${systemMessage(error)}\nCheck permissions and free space, then run the command again.\n`,
      );
      return 2;
    }
    fail(
      `plinth: this is a bug in plinth, not in your technical file: ${error instanceof Error ? error.message : String(error)}\nCommand: plinth ${words.join(' ')}\nPlease report it with this text${process.env['PLINTH_TRACE'] ? '' : '; PLINTH_TRACE=1 adds where it happened'}.\n`,
    );
    if (process.env['PLINTH_TRACE'] && error instanceof Error) process.stderr.write(`${error.stack ?? ''}\n`);
    return 3;
  }
};

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
});
process.exitCode = await main(process.argv.slice(2));
