/** The page on which a tablet learns to trust the hub's certificate. */
export const TRUST = {
  title: 'Que esta tableta confíe en el tablero · Aisle Board',
  heading: 'Que esta tableta confíe en el tablero',
  why: 'Después, el tablero se abre sin advertencias, mantiene la pantalla encendida y se abre también cuando la central no responde. Solo debe hacerlo una tableta del establo.',
  scope:
    'El certificado vale solo para la red propia de este establo: ninguna página de internet puede usarlo, lo tenga quien lo tenga.',
  take: 'Bajar el certificado',
  compare:
    'Antes de confiar, compare este número con el que muestra la pantalla de la central. Si son distintos, deténgase y pregunte.',
  open: 'Ya confía: abrir el tablero',
  steps: [
    {
      on: 'Tableta Android',
      do: [
        'Toque «Bajar el certificado». Queda en Descargas.',
        'Abra Ajustes y busque «certificado de CA».',
        'Elija «Instalar de todos modos» y luego el archivo de Descargas.',
        'Vuelva aquí y abra el tablero.',
      ],
    },
    {
      on: 'iPad (Apple)',
      do: [
        'Toque «Bajar el certificado» y permita que se cargue el perfil.',
        'Abra Ajustes, toque «Perfil descargado» y luego Instalar.',
        'En Ajustes › General › Información › Ajustes de confianza de certificados, actívelo.',
        'Vuelva aquí y abra el tablero.',
      ],
    },
    {
      on: 'Computadora con Windows',
      do: [
        'Haga clic en «Bajar el certificado» y abra el archivo.',
        'Elija Instalar certificado y luego Usuario actual.',
        'Elija «Colocar todos los certificados en el siguiente almacén»: Entidades de certificación raíz de confianza.',
        'Cierre el navegador, ábralo otra vez y vuelva al tablero.',
      ],
    },
    {
      on: 'Chromium en una computadora pequeña (Linux)',
      do: [
        'Baje el certificado como el usuario que tiene la pantalla.',
        'Instale el paquete libnss3-tools.',
        'Ejecute: certutil -d sql:$HOME/.pki/nssdb -A -t "C,," -n aisle-board -i aisle-board.crt',
        'Inicie Chromium otra vez.',
      ],
    },
  ],
} as const;
