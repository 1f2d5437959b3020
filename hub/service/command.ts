/** Another program of this computer, run to its end. */
import { spawn } from 'node:child_process';
import { StartError } from '../startError.ts';

/** Runs `command`; throws StartError with what it said when it fails. */
export type Command = (command: string, args: readonly string[]) => Promise<void>;

export const runCommand: Command = (command, args) =>
  new Promise((done, fail) => {
    const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    child.stdout.on('data', (text: Buffer) => (said += text.toString()));
    child.stderr.on('data', (text: Buffer) => (said += text.toString()));
    child.on('error', (error) => fail(new StartError(`${command} cannot be run (${error.message}).`)));
    child.on('close', (code) => {
      if (code === 0) done();
      else fail(new StartError(`"${command} ${args.join(' ')}" failed:\n${said.trim()}`));
    });
  });
