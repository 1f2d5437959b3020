/**
 * The hub's messages as they go over the air. Most of them are one entry, to every tablet, so what follows from the rest of
 * it is left out: one entry is a message of its own, `by` and `why` stand only where there is one, and `ago` says how many
 * ms before `at` it was tapped. It stays JSON that a person can read.
 */
import type { Entry } from '../day/ops.ts';
import type { FromHub } from './messages.ts';

type Answers = Extract<FromHub, { say: 'answered' }>['answers'];

/** The text of a message. */
export function packed(message: FromHub): string {
  // oxlint-disable-next-line typescript/switch-exhaustiveness-check -- all others go as they are
  switch (message.say) {
    case 'entries': {
      const [only, ...more] = message.entries;
      return JSON.stringify(
        only && more.length === 0
          ? { say: 'entry', ...shortEntry(only) }
          : { say: 'entries', entries: message.entries.map(shortEntry) },
      );
    }
    case 'welcome':
      return JSON.stringify({ ...message, entries: message.entries.map(shortEntry) });
    case 'answered':
      return JSON.stringify({ say: 'answered', answers: message.answers.map(shortAnswer) });
    default:
      return JSON.stringify(message);
  }
}

/**
 * Parsed JSON with everything in it again that `packed` left out. What is not a message comes out as it went in, or as
 * something that is none either. Never throws.
 */
export function unpacked(data: unknown): unknown {
  if (!isRecord(data)) return data;
  switch (data['say']) {
    case 'entry': {
      const { say: _one, ...entry } = data;
      return { say: 'entries', entries: [fullEntry(entry)] };
    }
    case 'entries':
    case 'welcome':
      return Array.isArray(data['entries']) ? { ...data, entries: data['entries'].map(fullEntry) } : data;
    case 'answered':
      return Array.isArray(data['answers']) ? { ...data, answers: data['answers'].map(fullAnswer) } : data;
    default:
      return data;
  }
}

function shortEntry({ by, tappedAt, facts, why, ...rest }: Entry): object {
  const ago = rest.at - tappedAt;
  return {
    ...rest,
    ...(by !== null && { by }),
    ...(ago !== 0 && { ago }),
    ...(facts.length === 1 ? { fact: facts[0] } : { facts }),
    ...(why && { why }),
  };
}

function fullEntry(short: unknown): unknown {
  if (!isRecord(short)) return short;
  const { ago = 0, fact, ...rest } = short;
  const { at } = rest;
  return {
    by: null,
    why: null,
    ...(typeof at === 'number' && typeof ago === 'number' && { tappedAt: at - ago }),
    ...(fact !== undefined && { facts: [fact] }),
    ...rest,
  };
}

function shortAnswer({ why, ...rest }: Answers[number]): object {
  return why ? { ...rest, why } : rest;
}

function fullAnswer(short: unknown): unknown {
  return isRecord(short) ? { why: null, ...short } : short;
}

function isRecord(data: unknown): data is Record<string, unknown> {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}
