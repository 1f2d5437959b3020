/** The board menu, and the choices of language and light. */
export const MENU = {
  sheet: 'Hoja del día',
  add: 'Agregar a hoy',
  records: 'Registros',
  files: 'Archivos',
  paper: 'Papel',
  end: 'Cierre del día',
  byStall: 'Por box',
  byUrgency: 'Lo más urgente primero',
  unlock: 'Desbloquear para coordinar',
  changePlace: 'Cambiar lo que muestra esta tableta',
  glass: 'Medir esta pantalla',
  theme: 'Claro u oscuro',
  themes: { clock: 'Oscuro de noche', day: 'Siempre claro', night: 'Siempre oscuro' },
  language: 'Idioma',
  fullScreen: 'Ocupar toda la pantalla',
  languageLater:
    'El idioma cambia la próxima vez que se cargue esta página. La central no responde por ahora.',
} as const;
