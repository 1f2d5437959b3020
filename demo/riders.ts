/** The invented barn's riders. Nobody real: names, weights and needs are made up. */
import type { Rider } from '#core/barn/people.ts';

type Told = {
  readonly callName: string;
  readonly fullName: string;
  readonly weightKg: number | null;
  readonly balanced: boolean;
  readonly needs: string;
  readonly approved: readonly string[];
  readonly notWith?: readonly string[];
};

const TOLD: readonly Told[] = [
  {
    callName: 'Tomasz',
    fullName: 'Tomasz Wierzbak',
    weightKg: 31,
    balanced: false,
    needs: 'Mounts from the ramp. A hand at the ankle on both sides.',
    approved: ['bramble', 'moss'],
  },
  {
    callName: 'Nadia',
    fullName: 'Nadia el-Sharouk',
    weightKg: 26,
    balanced: true,
    needs: 'Short sentences, one thing at a time.',
    approved: ['dot', 'fern'],
  },
  {
    callName: 'Bruno',
    fullName: 'Bruno Castelvar',
    weightKg: 64,
    balanced: true,
    needs: 'Rides alone at walk. Hears better on the right.',
    approved: ['gus', 'clay'],
  },
  {
    callName: 'Hana',
    fullName: 'Hana Morizuka',
    weightKg: 38,
    balanced: false,
    needs: 'Tires after twenty minutes. Ask before every trot.',
    approved: ['moss', 'bramble'],
  },
  {
    callName: 'Caleb',
    fullName: 'Caleb Thornquist',
    weightKg: 35,
    balanced: false,
    needs: 'Side-walker on the left. Likes to count the steps.',
    approved: ['bramble'],
    notWith: ['tansy'],
  },
  {
    callName: 'Zuri',
    fullName: 'Zuri Wambeke',
    weightKg: 52,
    balanced: true,
    needs: 'Prefers to be told what comes next.',
    approved: ['clay', 'rook'],
  },
  {
    callName: 'Elif',
    fullName: 'Elif Kararda',
    weightKg: 41,
    balanced: true,
    needs: 'Rides alone on a loop rein.',
    approved: ['fern', 'juno'],
  },
  {
    callName: 'Viggo',
    fullName: 'Viggo Halmstrand',
    weightKg: 58,
    balanced: false,
    needs: 'Startles at loud voices. Quiet side of the arena.',
    approved: ['hazel'],
  },
  {
    callName: 'Anjali',
    fullName: 'Anjali Devareth',
    weightKg: 47,
    balanced: false,
    needs: 'Two-handed hold on the handles. No stirrups.',
    approved: ['clay', 'fern'],
  },
  {
    callName: 'Oskar',
    fullName: 'Oskar Lindhagel',
    weightKg: 44,
    balanced: false,
    needs: 'Wants the leader to speak to the horse, not to him.',
    approved: ['fern'],
  },
  {
    callName: 'Rosa',
    fullName: 'Rosa Quintavilla',
    weightKg: 55,
    balanced: true,
    needs: 'Rides alone. Checks her own girth.',
    approved: ['juno', 'rook'],
  },
  {
    callName: 'Jonah',
    fullName: 'Jonah Pemberlock',
    weightKg: 49,
    balanced: false,
    needs: 'Side-walker on the right. Sunglasses on.',
    approved: ['kip', 'pepper', 'gus'],
  },
  {
    callName: 'Mei',
    fullName: 'Mei Tsubaran',
    weightKg: 43,
    balanced: false,
    needs: 'Low pressure at the knees; a pillow under the left one.',
    approved: ['otis', 'pepper'],
  },
  {
    callName: 'Tariq',
    fullName: 'Tariq Benzhour',
    weightKg: 71,
    balanced: true,
    needs: 'Uses signs for stop and go.',
    approved: ['rook', 'gus'],
  },
  {
    callName: 'Sina',
    fullName: 'Sina Falekava',
    weightKg: 24,
    balanced: true,
    needs: 'Rides alone on the lead-free circle.',
    approved: ['dot'],
  },
  {
    callName: 'Marek',
    fullName: 'Marek Dubrovich',
    weightKg: null,
    balanced: false,
    needs: 'Not weighed this term yet.',
    approved: ['tansy', 'hazel'],
  },
  {
    callName: 'Wanjiru',
    fullName: 'Wanjiru Kamaunde',
    weightKg: 60,
    balanced: true,
    needs: 'Reads lips: face her.',
    approved: ['hazel', 'clay'],
  },
  {
    callName: 'Lucas',
    fullName: 'Lucas Arvenholt',
    weightKg: 76,
    balanced: false,
    needs: 'Mounts with the lift. Leader and one side-walker.',
    approved: ['gus'],
  },
  {
    callName: 'Noor',
    fullName: 'Noor Haddawi',
    weightKg: 33,
    balanced: true,
    needs: 'Likes to lead the horse back to its stall.',
    approved: ['moss', 'dot'],
  },
];

/** Their ids say nothing about them: r1, r2 and so on. */
export const RIDERS: readonly Rider[] = TOLD.map((told, i) => ({
  id: `r${i + 1}`,
  callName: told.callName,
  private: {
    fullName: told.fullName,
    weightKg: told.weightKg,
    balanced: told.balanced,
    needs: told.needs,
    approvedHorses: [...told.approved],
    notWithHorses: [...(told.notWith ?? [])],
  },
}));
