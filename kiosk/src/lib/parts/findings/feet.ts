/** A check of four feet under way: what was looked at, and what was seen there. */
import type { Horse } from '#core/barn/horse.ts';
import type { FootFinding } from '#core/care/findings.ts';
import type { FeetOrder, Foot } from '#core/care/feetOrder.ts';
import { say } from '../../words.ts';

/** By foot: what was seen; empty: fine; missing: not looked at yet. */
export type FeetSeen = Readonly<Partial<Record<Foot, readonly FootFinding[]>>>;

/** One thing that may be seen on a foot; with several findings, the one that fits is asked for. */
export type FootChoice = {
  readonly kind: FootFinding['kind'];
  readonly says: string;
  readonly findings: readonly { readonly says: string; readonly finding: FootFinding }[];
};

const SHOE_KINDS = ['shoe-lost', 'shoe-sprung', 'shoe-twisted', 'clinches-risen'] as const;
const PLAIN_KINDS = ['heat', 'thrush-smell', 'sore', 'leg-swelling', 'leg-cut'] as const;

/** What is asked on this foot: about the shoe only where there should be one. */
export function choicesFor(foot: Foot, care: Horse['feet'][Foot]): FootChoice[] {
  const plain = (kind: (typeof SHOE_KINDS)[number] | (typeof PLAIN_KINDS)[number] | 'nail'): FootChoice => ({
    kind,
    says: say.FOOT_KIND[kind],
    findings: [{ says: say.FOOT_KIND[kind], finding: { on: 'foot', foot, kind } }],
  });
  const crack = (says: string, blood: boolean, pain: boolean) => ({
    says,
    finding: { on: 'foot', foot, kind: 'crack', blood, pain } as const,
  });
  const stone = (says: string, cameOut: boolean) => ({
    says,
    finding: { on: 'foot', foot, kind: 'stone', cameOut } as const,
  });
  return [
    ...(care === 'shod' ? SHOE_KINDS.map(plain) : []),
    plain('nail'),
    {
      kind: 'stone',
      says: say.FOOT_KIND.stone,
      findings: [stone(say.FINDINGS.stoneOut, true), stone(say.FINDINGS.stoneStuck, false)],
    },
    {
      kind: 'crack',
      says: say.FOOT_KIND.crack,
      findings: [
        crack(say.FINDINGS.crackPlain, false, false),
        crack(say.FINDINGS.crackPain, false, true),
        crack(say.FINDINGS.crackBlood, true, true),
      ],
    },
    ...PLAIN_KINDS.map(plain),
  ];
}

export function setFine(seen: FeetSeen, foot: Foot): FeetSeen {
  return { ...seen, [foot]: [] };
}

/** Every foot not looked at yet is fine. */
export function restFine(seen: FeetSeen, order: FeetOrder): FeetSeen {
  return order.reduce((next, foot) => (next[foot] ? next : setFine(next, foot)), seen);
}

/** Puts a finding on its foot in place of another of its kind. */
export function withFinding(seen: FeetSeen, finding: FootFinding): FeetSeen {
  const others = (seen[finding.foot] ?? []).filter(({ kind }) => kind !== finding.kind);
  return { ...seen, [finding.foot]: [...others, finding] };
}

/** Takes a kind off its foot. With none left the foot is to be looked at again. */
export function withoutKind(seen: FeetSeen, foot: Foot, kind: FootFinding['kind']): FeetSeen {
  const { [foot]: was = [], ...others } = seen;
  const left = was.filter((one) => one.kind !== kind);
  return left.length > 0 ? { ...others, [foot]: left } : others;
}

export function isAllLooked(seen: FeetSeen, order: FeetOrder): boolean {
  return order.every((foot) => seen[foot] !== undefined);
}

/** All that was seen, in the order of the feet. */
export function findingsIn(seen: FeetSeen, order: FeetOrder): FootFinding[] {
  return order.flatMap((foot) => seen[foot] ?? []);
}

/** The part of the foot a kind of finding is about, for the drawing. */
export type FootPart = 'frog' | 'sole' | 'wall' | 'clinches' | 'shoe' | 'leg';

export const PART_OF: Record<FootFinding['kind'], FootPart> = {
  'shoe-lost': 'shoe',
  'shoe-sprung': 'shoe',
  'shoe-twisted': 'shoe',
  'clinches-risen': 'clinches',
  stone: 'frog',
  nail: 'sole',
  heat: 'wall',
  crack: 'wall',
  'thrush-smell': 'frog',
  sore: 'sole',
  'leg-swelling': 'leg',
  'leg-cut': 'leg',
};
