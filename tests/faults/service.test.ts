/** The hub as a service: its unit file before systemd's own tools, and programs brought in and taken back. */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { installSteps } from '../../hub/service/install.ts';
import { Releases } from '../../hub/service/releases.ts';
import { unitText } from '../../hub/service/unit.ts';
import { backSteps, updateSteps, type Updating } from '../../hub/service/update.ts';
import { watchOver } from '../../hub/service/watchdog.ts';
import { StartError } from '../../hub/startError.ts';

const REPO = join(import.meta.dirname, '../..');
const hasSystemd = spawnSync('systemd-analyze', ['--version']).status === 0;

let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'aisle-board-service-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const VALUES = {
  root: '/opt/aisle-board',
  user: 'aisle-board',
  state: 'aisle-board',
  data: '/var/lib/aisle-board',
  port: 4610,
  more: '',
};

describe('the unit file', () => {
  it.runIf(hasSystemd)(
    'passes systemd-analyze verify, with an exposure of at most 2.0 by systemd-analyze security',
    () => {
      symlinkSync(REPO, join(folder, 'current'));
      const file = join(folder, 'aisle-board.service');
      writeFileSync(file, unitText({ ...VALUES, root: folder }));
      const verified = spawnSync('systemd-analyze', ['verify', '--recursive-errors=no', file], {
        encoding: 'utf8',
      });
      expect(verified.stderr).toBe('');
      expect(verified.status).toBe(0);
      const said = execFileSync('systemd-analyze', ['security', '--offline=true', '--threshold=20', file], {
        encoding: 'utf8',
        env: { ...process.env, SYSTEMD_LOG_LEVEL: 'err' },
      });
      const exposure = Number(/exposure level .*: ([\d.]+)/.exec(said)?.[1]);
      console.log(`systemd-analyze security: exposure ${exposure}`);
      expect(exposure).toBeGreaterThan(0);
      expect(exposure).toBeLessThanOrEqual(2);
    },
  );

  it('refuses a value that would mean something to systemd', () => {
    for (const data of ['/var/lib/a b', '/var/%n', '/x"y', 'a\nExecStart=/bin/sh'])
      expect(() => unitText({ ...VALUES, data }), data).toThrow(StartError);
    expect(() => unitText({ ...VALUES, more: ' --tls\nUser=root' })).toThrow(StartError);
    expect(unitText({ ...VALUES, more: ' --tls' })).toContain('--port 4610 --tls\n');
  });
});

/** A folder with what a program has, as small as can be. */
function makeProgram(version: string, leaveOut?: string): string {
  const at = join(folder, `program-${version}${leaveOut === undefined ? '' : '-broken'}`);
  for (const part of [
    'src',
    'hub',
    'demo',
    'hardware-notes',
    'kiosk/build',
    'node_modules/one/node_modules/two',
    'node_modules/test-only',
  ]) {
    if (part === leaveOut) continue;
    mkdirSync(join(at, part), { recursive: true });
    writeFileSync(join(at, part, 'file'), `${part} ${version}`);
  }
  if (leaveOut !== 'hub/build/run.js') {
    mkdirSync(join(at, 'hub/build'), { recursive: true });
    writeFileSync(join(at, 'hub/build/run.js'), version);
  }
  const packages = {
    '': {},
    'node_modules/one': {},
    'node_modules/one/node_modules/two': {},
    'node_modules/test-only': { dev: true },
    'node_modules/other-os': { optional: true },
  };
  writeFileSync(join(at, 'package.json'), JSON.stringify({ name: 'aisle-board', version }));
  writeFileSync(join(at, 'package-lock.json'), JSON.stringify({ packages }));
  for (const name of ['README.md', 'DEVELOPERS.md']) writeFileSync(join(at, name), '');
  return at;
}

const current = (): string => readFileSync(join(folder, 'opt/current/hub/file'), 'utf8');

async function runAll(steps: readonly { run: () => Promise<void> }[]): Promise<void> {
  for (const { run } of steps) await run();
}

describe('programs', () => {
  const commands: string[] = [];
  const updating = (isUp: () => boolean): Updating => ({
    root: join(folder, 'opt'),
    data: join(folder, 'data'),
    now: Date.UTC(2026, 4, 2, 14, 5),
    command: async (command, args) => void commands.push([command, ...args].join(' ')),
    isUp: async () => isUp(),
  });

  beforeEach(async () => {
    commands.length = 0;
    mkdirSync(join(folder, 'units'));
    await runAll(
      await installSteps({
        from: makeProgram('1.0.0'),
        root: join(folder, 'opt'),
        units: join(folder, 'units'),
        port: 4610,
        more: '',
        at: '20260501-0900',
        command: updating(() => true).command,
      }),
    );
  });

  it('installs: a copy with what runs and nothing else, a unit, a start', () => {
    expect(current()).toBe('hub 1.0.0');
    expect(readdirSync(join(folder, 'opt/current/node_modules'))).toEqual(['one']);
    expect(readdirSync(join(folder, 'opt/current/node_modules/one/node_modules'))).toEqual(['two']);
    expect(readFileSync(join(folder, 'units/aisle-board.service'), 'utf8')).toContain(
      join(folder, 'opt/current'),
    );
    expect(commands.at(-1)).toBe('systemctl enable --now aisle-board.service');
  });

  it('says what it will do before anything is done, and does not install twice', async () => {
    await expect(
      installSteps({
        from: makeProgram('1.0.0'),
        root: join(folder, 'opt'),
        units: join(folder, 'units'),
        port: 1,
        more: '',
        at: 'x',
        command: async () => {},
      }),
    ).rejects.toThrow(/there already/);
    const steps = await updateSteps(
      makeProgram('1.1.0'),
      updating(() => true),
    );
    expect(steps.map(({ says }) => says).join()).toContain('1.1.0');
    expect(current()).toBe('hub 1.0.0');
  });

  it('update, back, and forth again', async () => {
    await runAll(
      await updateSteps(
        makeProgram('1.1.0'),
        updating(() => true),
      ),
    );
    expect(current()).toBe('hub 1.1.0');
    await runAll(await backSteps(updating(() => true)));
    expect(current()).toBe('hub 1.0.0');
    await runAll(await backSteps(updating(() => true)));
    expect(current()).toBe('hub 1.1.0');
  });

  it('a program that does not come up gives way to the one before, and leaves nothing', async () => {
    commands.length = 0;
    const steps = await updateSteps(
      makeProgram('1.1.0'),
      updating(() => false),
    );
    await expect(runAll(steps)).rejects.toThrow(/program before is running again/);
    expect(current()).toBe('hub 1.0.0');
    expect(readdirSync(join(folder, 'opt/releases'))).toEqual(['1.0.0-20260501-0900']);
    expect(commands.filter((said) => said.includes('restart'))).toHaveLength(2);
  });

  it('an incomplete folder is refused with what is missing', async () => {
    const notBundled = makeProgram('1.1.0', 'hub/build/run.js');
    await expect(
      updateSteps(
        notBundled,
        updating(() => true),
      ),
    ).rejects.toThrow(/hub\/build\/run\.js/);
    const broken = makeProgram('1.2.0', 'kiosk/build');
    await expect(
      updateSteps(
        broken,
        updating(() => true),
      ),
    ).rejects.toThrow(/kiosk\/build/);
    await expect(
      updateSteps(
        folder,
        updating(() => true),
      ),
    ).rejects.toThrow(/does not hold/);
  });

  it('a plug pulled in the middle of going over leaves a program that starts', async () => {
    const releases = new Releases(join(folder, 'opt'));
    // The half-made link of a try before.
    symlinkSync('releases/nowhere', join(folder, 'opt/.current.new'));
    const name = await releases.add({ folder: makeProgram('1.3.0'), version: '1.3.0' }, '20260601-0000');
    expect(readlinkSync(join(folder, 'opt/current'))).toContain('1.0.0');
    await releases.use(name);
    expect(current()).toBe('hub 1.3.0');
  });
});

describe('the watchdog', () => {
  it('says ready, then at half the time allowed that it lives, then stopping', () => {
    vi.useFakeTimers();
    const said: string[] = [];
    const stop = watchOver({ NOTIFY_SOCKET: '/run/x', WATCHDOG_USEC: '60000000' }, (words) =>
      said.push(words),
    );
    vi.advanceTimersByTime(65_000);
    expect(said).toEqual(['READY=1', 'WATCHDOG=1', 'WATCHDOG=1']);
    stop();
    vi.advanceTimersByTime(65_000);
    expect(said.slice(3)).toEqual(['STOPPING=1']);
    vi.useRealTimers();
  });

  it('says nothing where no service manager listens', () => {
    const said: string[] = [];
    watchOver({}, (words) => said.push(words))();
    expect(said).toEqual([]);
  });
});
