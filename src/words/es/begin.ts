/** Beginning one’s own barn, and adding to it. */
export const BEGIN_PAGE = 'Empezar un establo · Aisle Board';

export const BEGIN = {
  title: 'Empezar mi propio establo',
  hint: 'La muestra se va y empieza un establo vacío en esta central.',
  barnName: 'Nombre del establo',
  zone: 'Zona horaria',
  start: 'Empezar este establo',
  starting: 'Empezando…',
  failed: 'La central no respondió. Intente otra vez cuando vuelva.',
  badZone: 'La central no conoce esa zona horaria. Se escribe como America/Denver.',
  first: 'Una primera clase en el tablero',
  more: 'Agregar para hoy',
  horse: 'Caballo',
  horseName: 'Nombre del caballo',
  shoes: 'Herraduras',
  stall: 'Box',
  person: 'Persona',
  personName: 'Nombre del voluntario',
  cleared: 'Con autorización para',
  lesson: 'Clase de hoy',
  lessonName: 'Nombre de la clase',
  lessonTime: 'Empieza a las',
  rider: 'Apodo del jinete (puede quedar vacío)',
  staff: '¿Quién decide aquí? (puede quedar vacío)',
  staffName: 'Su nombre, como coordinación',
  sameHorse: 'Caballo que ya está en el establo',
  newHorse: 'Un caballo nuevo',
  samePerson: 'Persona que ya está en el establo',
  newPerson: 'Una persona nueva',
  noLesson: 'Sin clase por ahora',
  withLesson: 'Con una clase',
  put: 'Poner en el tablero',
  missing: 'Todavía falta: ',
  past: 'A esa hora ya debía estar en la rampa; el caballo aparecerá como «Tarde».',
  onBoard: 'Ya está en el tablero.',
  toHands: 'Verlo',
} as const;

export const MISSING_WORD = {
  horseName: 'el caballo',
  stall: 'su box',
  personName: 'la persona',
  clearances: 'para qué tiene autorización',
  lessonName: 'el nombre de la clase',
  time: 'cuándo empieza',
} as const;

export const SHOES_WORD = {
  none: 'sin herraduras',
  front: 'herrado adelante',
  all: 'herrado de los cuatro cascos',
} as const;
