/**
 * A reporter for vitest: how many tests passed, what failed and why, and of every check under tests/reference its sources, own
 * or of its groups. As JSON into the file that REPORT_FILE names.
 */
import { writeFileSync } from 'node:fs';
import { relative } from 'node:path';
import { stripVTControlCharacters } from 'node:util';

const REFERENCE = /[\\/]tests[\\/]reference[\\/]/;

export default class Report {
  onTestRunEnd(modules, unhandled) {
    const file = process.env.REPORT_FILE;
    if (!file) return;
    const tests = modules.flatMap((one) => [...one.children.allTests()]);
    const passed = tests.filter((test) => test.result().state === 'passed').length;
    const failed = [
      ...tests.flatMap(failureOf),
      ...modules.flatMap(brokenOf),
      ...unhandled.map((error) => ({ name: 'outside of any test', file: 'vitest', why: said(error) })),
    ];
    const checks = tests
      .filter(({ module }) => REFERENCE.test(module.moduleId))
      .map((test) => ({ name: test.fullName, sources: sourcesOf(test) }));
    writeFileSync(file, JSON.stringify({ passed, failed, checks }));
  }
}

/** A skipped test, or one that a crash kept from its end, must not look like success. */
function failureOf(test) {
  const { state, errors } = test.result();
  if (state === 'passed') return [];
  const why = { failed: (errors ?? []).map(said).join('\n'), skipped: 'skipped', pending: 'did not end' }[
    state
  ];
  return [{ name: test.fullName, file: test.module.relativeModuleId, why: why ?? state }];
}

/** A file or a group that broke outside of its tests; a file without one. */
function brokenOf(module) {
  const file = module.relativeModuleId;
  const parts = [module, ...module.children.allSuites()];
  const broken = parts
    .filter((part) => part.errors().length > 0)
    .map((part) => ({ name: part.fullName ?? 'the file', file, why: part.errors().map(said).join('\n') }));
  const isEmpty = [...module.children.allTests()].length === 0;
  return isEmpty && broken.length === 0 ? [{ name: 'the file', file, why: 'ran no test' }] : broken;
}

/** Message, place, what was expected and what came; then what caused it. */
function said({ name, message, stacks, diff, cause }) {
  const [at] = stacks ?? [];
  const lines = [
    `${name ?? 'Error'}: ${message}`,
    at && `at ${relative(process.cwd(), at.file)}:${at.line}`,
    diff,
    cause?.message && said(cause),
  ];
  return stripVTControlCharacters(lines.filter(Boolean).join('\n'));
}

function sourcesOf(test) {
  const found = new Set();
  for (let part = test; part && part.type !== 'module'; part = part.parent) {
    for (const name of part.meta().sources ?? []) found.add(name);
  }
  return [...found];
}
