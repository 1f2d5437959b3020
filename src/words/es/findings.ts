/**
 * Findings: what was seen, never what it is, and what the barn’s rules make of it. No diagnosis, no dose; the
 * centre’s own rules, the vet and the farrier decide.
 */
import type { Foot } from '../../care/feetOrder.ts';
import type {
  BodyFinding,
  BodyPlace,
  Finding,
  FootFinding,
  GaitFinding,
  MannerFinding,
} from '../../care/findings.ts';
import { sayLameness, sayVital } from './care.ts';

export const FOOT_WORD: Record<Foot, string> = {
  LF: 'Delantero izquierdo',
  LH: 'Trasero izquierdo',
  RF: 'Delantero derecho',
  RH: 'Trasero derecho',
};

export const FOOT_KIND: Record<FootFinding['kind'], string> = {
  'shoe-lost': 'Herradura perdida',
  'shoe-sprung': 'Herradura floja',
  'shoe-twisted': 'Herradura torcida',
  'clinches-risen': 'Remaches levantados',
  stone: 'Piedra',
  nail: 'Clavo o algo metido en el casco',
  heat: 'Caliente',
  crack: 'Grieta',
  'thrush-smell': 'Mal olor',
  sore: 'Dolor',
  'leg-swelling': 'Pata hinchada',
  'leg-cut': 'Corte en la pata',
};

export const BODY_WORD: Record<BodyPlace, string> = {
  poll: 'Nuca',
  eye: 'Ojo',
  face: 'Cara',
  mouth: 'Boca',
  neck: 'Cuello',
  withers: 'Cruz',
  shoulder: 'Hombro',
  chest: 'Pecho',
  back: 'Dorso',
  loin: 'Lomo',
  girth: 'Cinchera',
  belly: 'Vientre',
  flank: 'Ijar',
  croup: 'Grupa',
  hindquarters: 'Cuartos traseros',
  tail: 'Cola',
};

export const BODY_KIND: Record<BodyFinding['kind'], string> = {
  rub: 'Rozadura',
  sore: 'Llaga',
  swelling: 'Hinchazón',
  cut: 'Corte',
  'skin-patch': 'Mancha en la piel',
  'reacts-to-touch': 'Reacciona al tocarlo',
};

export const MANNER_WORD: Record<MannerFinding['kind'], string> = {
  calm: 'Tranquilo',
  unsettled: 'Inquieto',
  'ears-pinned': 'Orejas hacia atrás',
  'will-not-be-touched': 'No se deja tocar',
};

export const GAIT_WORD: Record<GaitFinding['kind'], string> = {
  uneven: 'Camina irregular',
  'will-not-take-weight': 'No apoya',
};

const SIDE: Record<BodyFinding['side'], string> = { left: ', izquierda', right: ', derecha', middle: '' };

/** What was seen and where: `Delantero izquierdo: herradura floja`. */
export function sayFinding(finding: Finding): string {
  switch (finding.on) {
    case 'foot':
      return `${FOOT_WORD[finding.foot]}: ${sayFootKind(finding).toLowerCase()}`;
    case 'body':
      return `${BODY_WORD[finding.place]}${SIDE[finding.side]}: ${BODY_KIND[finding.kind].toLowerCase()}`;
    case 'manner':
      return MANNER_WORD[finding.kind];
    case 'gait':
      return GAIT_WORD[finding.kind];
    case 'vital':
      return sayVital(finding);
    case 'lameness':
      return sayLameness(finding.grade);
  }
}

/** What was seen, without where. */
export function sayFootKind(finding: FootFinding): string {
  switch (finding.kind) {
    case 'stone':
      return finding.cameOut ? 'Piedra, salió' : 'Piedra, trabada';
    case 'crack':
      if (finding.blood) return 'Grieta, con sangre';
      return finding.pain ? 'Grieta, le duele' : 'Grieta, sin sangre ni dolor';
    case 'shoe-lost':
    case 'shoe-sprung':
    case 'shoe-twisted':
    case 'clinches-risen':
    case 'nail':
    case 'heat':
    case 'thrush-smell':
    case 'sore':
    case 'leg-swelling':
    case 'leg-cut':
      return FOOT_KIND[finding.kind];
  }
}

export const FINDINGS = {
  feetTitle: (horse: string) => `${horse}: los cuatro cascos`,
  feetDone: (horse: string) => `${horse}: lo que se vio en los cascos`,
  order: 'En el orden del establo',
  foot: (n: number, foot: string) => `${n}. ${foot}`,
  lookAt: 'Mire',
  fine: 'Bien',
  notLooked: 'sin mirar',
  shod: 'con herradura',
  bare: 'sin herradura',
  sole: {
    frog: 'ranilla',
    sole: 'suela',
    wall: 'muralla',
    clinches: 'remaches',
    shoe: 'herradura',
    leg: 'pata, sobre el casco',
  },
  allFine: 'Los cuatro bien',
  restFine: 'Los demás, bien',
  hold: 'Mantenga apretado: cascos revisados',
  holdReport: 'Mantenga apretado: avisar lo que se vio',
  holding: 'Siga apretando…',
  holdAgain: 'Apriete otra vez para confirmar',
  stillToLook: 'Mire cada casco y después mantenga apretado aquí',
  takeOut: 'No es así: quitarlo',
  stoneOut: 'Piedra, salió',
  stoneStuck: 'Piedra, no sale',
  crackPlain: 'Grieta, sin sangre ni dolor',
  crackPain: 'Grieta, le duele',
  crackBlood: 'Grieta, con sangre',
  saw: 'Vi algo',
  whoSaw: '¿Quién lo vio?',
  sawOn: (horse: string) => `${horse}: ¿qué vio?`,
  whereOnBody: 'Toque el lugar',
  left: 'Lado izquierdo',
  right: 'Lado derecho',
  pickPlace: 'Primero toque el lugar en el dibujo.',
  whatThere: (place: string) => `${place}: ¿qué es?`,
  onFoot: 'En un casco o una pata',
  onBody: 'En el cuerpo',
  takesIt: 'Cómo reacciona',
  words: 'Con sus palabras (puede quedar vacío)',
  secondPerson: 'Pedir otra persona',
  secondPersonAsked: 'Se pidió otra persona.',
  tell: 'Avisar',
  decide: 'El tablero aconseja. Deciden las reglas del centro, el instructor, el veterinario y el herrador.',
  unread: 'Sin leer',
  readBy: (names: string) => `leído por ${names}`,
  whoReads: '¿Quién lo leyó?',
  readAs: (name: string) => `Leído por ${name}`,
  seenBy: (who: string, when: string) => `${who}, ${when}`,
  nobodyNamed: 'sin nombre',
  history: 'Observaciones hasta ahora',
  none: 'Sin observaciones de este caballo.',
  settled: 'autorizado después',
  pull: 'Retirar del trabajo',
  pullWho: 'Retirar del trabajo: ¿quién decide?',
  pulledNow: 'Está retirado del trabajo.',
  noStaff: 'Todavía no hay nadie del personal en los registros del establo.',
  seeAll: 'Ver',
  where: 'De dónde sale el consejo',
} as const;
