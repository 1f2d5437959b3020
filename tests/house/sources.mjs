/**
 * A reporter for vitest: of every check under tests/reference its sources, own or of its groups, as JSON into the file that
 * SOURCES_FILE names.
 */
import { writeFileSync } from 'node:fs';

const REFERENCE = /[\\/]tests[\\/]reference[\\/]/;

export default class Sources {
  #checks = [];

  onTestCaseResult(test) {
    if (!REFERENCE.test(test.module.moduleId)) return;
    this.#checks.push({ name: test.fullName, sources: sourcesOf(test) });
  }

  onTestRunEnd() {
    const file = process.env.SOURCES_FILE;
    if (file) writeFileSync(file, JSON.stringify(this.#checks));
  }
}

function sourcesOf(test) {
  const found = new Set();
  for (let part = test; part && part.type !== 'module'; part = part.parent) {
    for (const name of part.meta().sources ?? []) found.add(name);
  }
  return [...found];
}
