import type { ByHandWords } from '../by-hand-words.ts';
import { withComma } from '../numbers.ts';

const or = (names: readonly string[]): string => names.join(' o ');
const quoted = (names: readonly string[]): string => names.map((name) => `«${name}»`).join(', ');

export const esByHand: ByHandWords = {
  keyed: {
    open: 'Escribir',
    heading: 'Lecturas de dos medidores',
    apart: 'Lo que funciona ahora no es tu montaje. Lo que marcan tus medidores va en una sesión propia.',
    begin: 'Empezarla',
    offer: '¿Sin placa? Escribe lo que marcan dos medidores',
    forRun: 'Para',
    noRun: 'ninguna prueba',
    hasTrial: (trial) => `Aquí ya está la medida ${trial}. Otra se guarda a su lado.`,
    meter: { voltage: 'Voltímetro', current: 'Amperímetro', windSpeed: 'Medidor de viento' },
    changeMeters: 'Otros medidores o escalas',
    addWindMeter: 'Añadir medidor de viento',
    range: 'Escala hasta',
    lastDigit: 'Última cifra',
    percent: '± % de lectura',
    counts: '+ dígitos',
    unit: 'Unidad',
    metersHint: 'Del manual: ±(% de la lectura + dígitos de la última cifra), para la escala elegida.',
    reading: (place) => `Lectura ${place}`,
    addReading: 'Una lectura más',
    together: 'Lee los dos en el mismo momento, todas las cifras.',
    didNotTurn: 'No giró',
    note: 'Nota',
    log: 'Guardar',
    oneReading: 'Una lectura no dice nada de su dispersión: este ± es solo de los medidores. Tres dicen más.',
    severalReadings: (count) => `Dispersión de ${count} lecturas y límites de los medidores.`,
    toMend: (count) => (count === 1 ? 'Antes, arregla 1 cosa.' : `Antes, arregla ${count} cosas.`),
    fault: {
      empty: ({ instance }) => `Escribe un número, por ejemplo ${withComma(instance)}.`,
      overload: () => 'OL significa que la escala es pequeña. Pon una mayor y lee otra vez.',
      'no-number': ({ typed, instance }) =>
        `«${typed}» no es un número. Escribe uno como ${withComma(instance)}.`,
      'two-numbers': ({ typed, decimal, whole }) =>
        `«${typed}» puede ser ${decimal} o ${whole}. Escríbelo con punto: ${decimal}, o sin él: ${whole}.`,
      'two-signs': ({ typed }) => `«${typed}» tiene más de un signo decimal. Deja uno.`,
      'no-unit-wanted': ({ unit }) => `Quita «${unit}»: solo hace falta el número.`,
      'unit-unknown': ({ unit, known }) => `«${unit}» no se conoce aquí. Usa ${or(known)}.`,
      'nothing-read': () => 'Escribe al menos una lectura.',
      'not-above-zero': () => 'Escribe un número mayor que 0.',
      'below-zero': () => 'El viento no baja de 0. Quita el signo menos.',
      'out-of-bounds': ({ most, unit }) => `De 0 a ${most} ${unit === '%' ? '%' : 'dígitos'}.`,
      'digit-beyond-range': () => 'La última cifra vale menos que la escala. Revisa las dos.',
      'no-meter-is-exact': () =>
        'Ningún medidor es exacto. El manual dice cuánto, por ejemplo ±(0,8 % + 2).',
      'signs-differ': () =>
        'Tensión y corriente tienen signos opuestos: en un medidor los cables están cambiados. Quita el signo menos si lo demás está bien.',
      'wind-without-meter': () => 'Di primero la escala y la exactitud del medidor de viento.',
      'beyond-range': ({ reading, range }) =>
        `${withComma(reading)} es más de lo que marca esta escala (${withComma(range)}). Pon una mayor, elígela arriba y lee otra vez.`,
      'between-steps': ({ reading, step }) =>
        `Esta escala va de ${withComma(step)} en ${withComma(step)}; ${withComma(reading)} queda en medio. Revisa lectura y escala.`,
    },
  },
  imported: {
    open: 'Tabla',
    heading: 'Una tabla de medidas',
    hint: 'Una fila por medida; en la primera, los nombres con unidad: round,angle_deg,voltage_V,current_mA',
    choose: 'Elegir un archivo CSV, o el archivo de sesión de otro grupo',
    paste: 'o pégala aquí',
    columns: 'Columnas',
    notRead: 'No se leen',
    heads: { line: 'Línea', set: 'Ajuste', goesTo: 'Será' },
    noRun: 'sin prueba',
    present: (trial) => `ya está, medida ${trial}`,
    struck: 'tachada',
    line: (line) => `Línea ${line}`,
    wrong: (count) => (count === 1 ? '1 línea no se puede leer:' : `${count} líneas no se pueden leer:`),
    understood: (rows) => (rows === 1 ? 'Se entiende 1 fila.' : `Se entienden ${rows} filas.`),
    presentCount: (count) =>
      count === 1
        ? '1 fila ya está en esta sesión y se deja fuera.'
        : `${count} filas ya están en esta sesión y se dejan fuera.`,
    takeAgain: 'Incorporarlas otra vez',
    ofGroup: 'Son del grupo',
    asTold: 'como dice la tabla',
    noUncertainty: 'Donde la tabla no dice la incertidumbre, no se conoce: allí pone «–».',
    bringIn: (rows) => (rows === 1 ? 'Incorporar 1 medida' : `Incorporar ${rows} medidas`),
    withoutWrong: (rows, wrong) =>
      `Incorporar ${rows} y dejar fuera ${wrong === 1 ? '1 línea' : `${wrong} líneas`}`,
    nothing: 'No hay nada que incorporar.',
    tooLarge: 'Este archivo es demasiado grande para una tabla de medidas.',
    noSession: 'No es el archivo de una sesión, o no está completo. Guárdalo otra vez en el otro portátil y cópialo entero.',
    fault: {
      'table-empty': () => 'La tabla está vacía.',
      'not-text': () => 'Esto no es texto simple. Guarda la tabla como CSV en UTF-8.',
      'row-endless': () =>
        'La fila no termina: a unas comillas les falta su pareja. Arréglalo y prueba otra vez.',
      'too-many-rows': ({ most }) => `Hay más de ${most} filas. Quita lo que no sea una medida.`,
      'column-twice': ({ column }) => `Dos columnas se llaman ${column}. Quita una.`,
      'columns-alike': ({ first, second }) =>
        `Las columnas ${first} y ${second} dicen lo mismo. Quita una.`,
      'names-missing': () =>
        'Hay números donde deben estar los nombres de las columnas. Pon encima una fila como angle_deg,voltage_V,current_mA.',
      'no-power': () =>
        'No hay ni potencia ni tensión y corriente. Nombra las columnas con unidad: voltage_V, current_mA, power_mW.',
      'no-factor': () => 'Falta una columna con los niveles, por ejemplo angle_deg.',
      'unit-missing': ({ column, wanted }) =>
        `La columna ${column} no se lee: llámala ${or(wanted)}.`,
      'field-count': ({ fields, columns }) =>
        `Hay ${fields} campos, pero ${columns} columnas. Arregla la fila o quítala.`,
      'cell-empty': ({ column }) => `${column} está vacío. Rellénalo o quita la fila.`,
      'level-unknown': ({ column, text, levels }) =>
        `«${text}» no es un nivel de ${column} en el plan, que tiene ${quoted(levels)}.`,
      'too-long': ({ column, most }) => `${column} tiene más de ${most} letras. Acórtalo.`,
      'other-sign': ({ column, text, sign }) =>
        `${column}: «${text}» pueden ser dos números. ${
          sign === '.'
            ? 'Usa el punto decimal en toda la tabla.'
            : 'Otros números de la tabla llevan coma decimal. Usa un solo signo en toda la tabla.'
        }`,
      'no-number': ({ column, text }) =>
        `${column}: «${text}» no es un número. Arréglalo o quita la fila.`,
      'below-zero': ({ column }) => `${column} es menor que 0. Arréglalo o quita la fila.`,
      'not-possible': ({ column, text }) =>
        `${column}: ${text} no es posible aquí. Revisa el número y la unidad de la primera fila.`,
      'value-missing': ({ quantity }) =>
        `Falta la ${quantity === 'voltage_V' ? 'tensión' : 'corriente'}. Complétala o quita la fila.`,
      'power-disagrees': ({ stated, product }) =>
        `La potencia es ${withComma(stated)} W, pero tensión por corriente da ${withComma(product)} W. Revisa las unidades de la primera fila.`,
      simulated: () =>
        'Esta fila es simulada: no se midió nada. No se mezcla con medidas propias.',
      'neither-yes-nor-no': ({ column, text }) =>
        `${column}: «${text}» no es ni sí ni no. Pon 1 en una fila tachada; si no, nada.`,
    },
  },
};
