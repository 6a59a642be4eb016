import { frRemarks } from '../bench/fr-remarks.ts';
import { frBoard } from '../board/fr.ts';
import { quantityIn, readingsIn } from '../board-words.ts';
import type { ProgramWords } from '../program-words.ts';
import { planSaid, sayOf } from '../refused-words.ts';
import { frRefused } from './fr-refused.ts';

const named = (quantity: string): string => quantityIn(frBoard.quantity, quantity);
const channel = (number: string, quantity: string): string =>
  quantity === '' ? `voie ${number}` : `voie ${number} (${named(quantity)})`;
const reporter = (number: string, quantity: string): string =>
  number === '' ? 'La carte signale' : `La carte signale pour la ${channel(number, quantity)}`;

const KEPT = 'En attendant, lectures et mesures restent en mémoire\u202f; elles sont ensuite gardées toutes seules.';

const NO_ZERO: Readonly<Record<string, string>> = {
  'no-readings': 'Aucune lecture n’arrive, donc aucun zéro ne peut être pris.',
  'not-announced': 'La carte n’a pas annoncé qu’on peut lui demander quelque chose.',
  unknown: 'Le sketch de la carte ne sait pas prendre un zéro.',
  'under-way': 'Un zéro est déjà en train d’être pris.',
};
const noZero = (why: string, number: string, quantity: string): string =>
  why === 'no-zero'
    ? `La ${channel(number, quantity)} n’a pas de zéro à prendre.`
    : (NO_ZERO[why] ?? `La carte n’a pas de voie ${number}.`);

const notNow = (why: string, about: readonly string[]): string =>
  sayOf(frRefused.notNow, why, about);
const fileSaid = (why: string): string =>
  Object.entries(frRefused.file).find(([code]) => code === why)?.[1] ?? why;

const MISFIT =
  'Cette page et le programme ne vont pas ensemble. Recharge la page.';

export const frProgram: ProgramWords = {
  notice: {
    'column-ignored': (names) => `Laissées de côté, car rien ici ne les lit\u202f: ${names}.`,
    'column-unit': (name, units) =>
      `La colonne ${name} ne finit pas par une unité connue (${units})\u202f; elle est laissée de côté.`,
    'column-twice': (first, second) =>
      `${first} et ${second} donnent la même grandeur, donc aucune n’est lue\u202f: renomme celle qui ne convient pas.`,
    'pulses-unset': (name) =>
      `${name} compte des impulsions, mais les réglages ne disent pas ce que vaut une impulsion\u202f: règle le vent pour une impulsion par seconde, ou les impulsions par tour du rotor.`,
    'pulses-ambiguous': (name) =>
      `${name} peut compter les impulsions de l’anémomètre ou du rotor\u202f: dans le sketch, nomme-le windPulses_count ou rotorPulses_count.`,
    'channel-unknown': (number, quantity, names) =>
      `La ${channel(number, quantity)} n’est pas une grandeur connue ici\u202f; elle est laissée de côté. Dans le sketch, prends une de celles-ci\u202f: ${names}.`,
    'channel-unit': (number, quantity, unit, ...known) =>
      `La ${channel(number, quantity)} vient en ${unit}, unité inconnue pour elle\u202f; elle est laissée de côté. Dans le sketch, prends ${known.join(' ou ')}.`,
    'channel-scale': (number, quantity) =>
      `La ${channel(number, quantity)} a une échelle impossible\u202f; elle est laissée de côté. Corrige son échelle, son gain ou son unité dans le sketch.`,
    'no-announcement': (seconds) =>
      `Des lectures arrivent, mais depuis ${seconds}\u202fs la carte n’a pas dit ce que sont ses nombres. Son sketch doit l’envoyer au début et toutes les 10\u202fs\u202f: $stillmark, $identity, une ligne $channel par voie, et $pace.`,
    'samples-misfit': (fields, channels) =>
      `Les lignes de la carte ont ${fields} lectures, mais elle a annoncé ${channels} voies\u202f: elles ne sont pas lues. Corrige l’un des deux dans le sketch.`,
    'board-missing': (number, quantity) =>
      `${reporter(number, quantity)}\u202f: le capteur ne répond pas. Vérifie ses fils.`,
    'board-over': (number, quantity) =>
      `${reporter(number, quantity)}\u202f: la lecture dépasse ce qu’il peut mesurer. Prends un calibre plus grand ou une charge plus petite.`,
    'board-under': (number, quantity) =>
      `${reporter(number, quantity)}\u202f: la lecture est plus petite que ce qu’il peut mesurer. Vérifie le plus, le moins et le zéro.`,
    'board-supply': (number, quantity) =>
      `${reporter(number, quantity)}\u202f: la tension d’alimentation est trop basse. Vérifie le câble USB et ce que la carte alimente d’autre.`,
    'board-refused': (why) =>
      `La carte n’a pas changé son rythme\u202f: ${REFUSED[why] ?? why}. Elle continue comme avant.`,
    'board-unanswered': (what) => UNANSWERED[what] ?? UNANSWERED['pace'] ?? '',
    'board-version': (theirs, ours) =>
      `La carte parle la version ${theirs} des lignes de Stillmark, ce programme la version ${ours}. Charge le sketch venu avec ce programme.`,
    'button-press': (came, trial) => `Bouton de la carte\u202f: ${PRESSED[came]?.(trial) ?? notNow(came, [trial])}`,
    'header-repeated': () =>
      'La carte envoie son en-tête encore et encore, et chaque fois cela semble un redémarrage. Envoie-le une fois au début, ou ajoute une colonne time_ms.',
    'columns-misfit': (fields, columns) =>
      `Les lignes ont ${fields} champs, mais ${columns} colonnes sont nommées\u202f: on ne peut rien lire ainsi. Appuie sur le reset de la carte et compare son en-tête à ses lignes.`,
    'decimal-comma': () =>
      'Les nombres semblent avoir une virgule décimale, qui pourrait aussi séparer des milliers ou des colonnes. Envoie-les avec un point décimal.',
    'computer-slept': (span) =>
      `L’ordinateur a dormi ${span}\u202f: rien n’a été enregistré pendant ce temps, et ce qui était en cours a été coupé.`,
    'orphan-action': (time_s, action) =>
      `À ${time_s}\u202fs il n’y a aucune mesure\u202f: ce qui a été fait là (${action}) ne touche rien.`,
    'orphan-zero': (why, number, quantity) =>
      `Le zéro n’a pas pu être pris ici\u202f: ${noZero(why, number, quantity)}`,
    'network-folder': (folder) =>
      `Le dossier de données ${folder} est sur un disque réseau ou synchronisé. Si la liaison est coupée ou si deux ordinateurs écrivent à la fois, des mesures peuvent se perdre\u202f: choisis avec --data un dossier de cet ordinateur.`,
    'data-restored': (kept, copiedAt, rows) =>
      `${kept === '' ? 'Le fichier de données avait disparu' : `Le fichier de données était abîmé ou vide\u202f; il est gardé sous ${kept}`}. ${copiedAt === '' ? 'Il n’y avait pas de copie utilisable' : `La copie de ${copiedAt} est à sa place`}, avec ${rows} lignes de plus qui ont pu être lues. Regarde les mesures les plus récentes\u202f: les dernières avant le dégât peuvent manquer.`,
    'data-not-copied': (reason) =>
      `Il n’y a pas de nouvelle copie de sûreté du fichier de données (${reason}). Les mesures sont gardées quand même.`,
    'orphan-command': (why, ...about) => `Ce qui a été dit ici n’a pas pu se faire\u202f: ${notNow(why, about)}`,
    'no-time-column': () =>
      'Il n’y a pas de colonne time_s\u202f: on ne sait pas quand les lectures ont été prises.',
    'time-back': () =>
      'Le temps recule ou s’arrête ici\u202f: des lignes sont laissées de côté jusqu’à ce qu’il avance à nouveau. Si un nouvel enregistrement commence ici, mets-le dans un fichier à part.',
    'row-damaged': (table, ...of) => sayOf(frRefused.damaged, table ?? '', of),
    'upkeep-failed': (reason) =>
      `Le fichier de données n’a pas pu être entretenu (${reason})\u202f: vérifie le disque.`,
  },
  refusal: {
    'viewers-only': () =>
      'Cet appareil peut regarder, mais pas commander. Fais-le sur l’ordinateur où tourne Stillmark, ou demande là un laissez-passer.',
    'trial-unknown': (trial) => `Il n’y a pas de mesure ${trial}. Recharge la page.`,
    'board-unknown': () => 'Cette carte n’est plus là. Branche-la et essaie encore.',
    'session-unknown': (why = '') =>
      why === 'empty'
        ? 'Rien n’a été enregistré dans cette séance.'
        : 'Cette séance n’est pas dans ce dossier de données. Choisis-en une dans la liste.',
    'session-refused': (name, its, now) =>
      `Les mesures de «\u202f${name}\u202f» viennent ${ORIGIN[its] ?? its}\u202f; ce qui arrive maintenant vient ${ORIGIN[now] ?? now}, et les deux ne vont jamais dans une même séance. Choisis d’abord la source.`,
    'replay-only': () =>
      'C’est une rediffusion\u202f: rien ne peut y être changé. Termine-la d’abord, sous Séances.',
    'columns-refused': (why) => UNNAMED[why] ?? why,
    'command-refused': (why, ...about) => notNow(why ?? '', about),
    'zero-refused': noZero,
    'zero-doubtful': (what, ...readings) => {
      if (what !== 'reads') return 'On ne sait pas encore ce que lit la carte\u202f: attends un moment.';
      return `La carte lit\u202f: ${readingsIn(frBoard.quantity, readings)}. Le ventilateur est-il arrêté, et les pales sont-elles immobiles\u202f?`;
    },
    'passes-full': () => 'Il ne peut pas y avoir plus de laissez-passer. Reprends-en un d’abord.',
    'saving-stopped': () =>
      'Pas fait, car on ne peut rien garder en ce moment\u202f: refais-le quand cela remarche.',
    'too-many-requests': () => 'Trop de demandes. Attends une seconde et essaie encore.',
    'body-too-large': () => 'C’est trop grand pour être envoyé.',
    'request-too-slow': () => 'La demande est arrivée trop lentement. Essaie encore.',
    internal: () => 'Quelque chose a mal tourné dans le programme. Ce qui est gardé est en sûreté.',
    'no-answer': () =>
      'Le programme n’a pas répondu. Rien n’est changé\u202f; essaie encore quand il est de retour.',
    'answer-unreadable': () => 'La réponse du programme n’a pas pu être lue. Recharge la page.',
    'file-unanswered': () =>
      'Le programme n’a pas répondu. Quand il sera revenu, reprends le fichier encore une fois\u202f: ce qui est déjà là n’entre pas deux fois.',
    'plan-refused': (kind, about, ...more) =>
      planSaid(frRemarks.obstacle, [kind ?? '', about ?? '', ...more]),
    'door-refused': (why, ...about) => sayOf(frRefused.door, why ?? '', about),
    'file-refused': (why) => fileSaid(why ?? ''),
    'bad-field': (field) =>
      `Quelque chose n’allait pas${field === '' ? '' : ` (${field})`}\u202f: c’est vide, trop long, ou aucun des choix. Change-le et essaie encore.`,
    'bad-json': () => MISFIT,
    'bad-request': () => MISFIT,
    'json-only': () => MISFIT,
    'not-found': () => MISFIT,
    'method-refused': () => MISFIT,
    'head-too-large': () => 'Le navigateur envoie trop\u202f: efface les cookies de cette page.',
    'page-not-built': () => 'La page n’est pas construite. Lance «\u202fnpm run build\u202f», puis redémarre.',
  },
  store: {
    'disk-full': (folder) => `Le disque de ${folder} est plein\u202f: fais de la place. ${KEPT}`,
    'file-busy': (file) => `Un autre programme écrit dans ${file}\u202f: ferme-le. ${KEPT}`,
    'folder-unwritable': (folder) =>
      `On ne peut pas écrire dans ${folder}\u202f: vérifie que son disque est branché, sain, et qu’on peut y écrire. ${KEPT}`,
    'data-folder-unusable': (file, folder) =>
      `On n’atteint pas ${file}\u202f: rebranche son disque, ou remets le fichier dans ${folder}. ${KEPT}`,
    'data-folder-in-use': (folder) => `Un autre Stillmark utilise ${folder}\u202f: arrête-le. ${KEPT}`,
    'data-damaged': () =>
      'Le fichier de données était abîmé\u202f; il est rétabli\u202f: on recommence à garder dans un moment.',
  },
  port: {
    busy: (path, holders) => {
      if (path === '') {
        return 'Le système vérifie encore la nouvelle carte, jusqu’à 15\u202fs. Stillmark la prend ensuite tout seul.';
      }
      const who = holders === '' ? 'un autre programme' : holders;
      return `${path} est utilisé par ${who}. Ferme-le là\u202f; Stillmark prend alors la carte tout seul.`;
    },
    denied: (path, group, login) => {
      if (group === '') {
        return `Ce compte ne peut pas utiliser ${path}. docs/boards.md montre une règle qui le permet à qui est devant l’ordinateur.`;
      }
      return login === ''
        ? `${path} est pour le groupe ${group}, et ce compte n’en est pas. Tape\u202f: sudo usermod -aG ${group} "$USER" puis déconnecte-toi et reconnecte-toi.`
        : `${path} est pour le groupe ${group}. Ce compte en est, mais seulement à la prochaine connexion\u202f: déconnecte-toi et reconnecte-toi.`;
    },
    missing: (path) => `Il n’y a rien à ${path}. Branche la carte.`,
    failed: (path) => `${path} ne s’est pas ouvert. Débranche la carte et rebranche-la.`,
  },
  endedEarly: (reason) =>
    `L’enregistrement n’a pas pu être lu plus loin\u202f: ${reason}`,
  goneAtOnce:
    'La carte a disparu quelques secondes après le branchement\u202f: la fiche tient peut-être mal, ou un service de cet ordinateur l’a prise. docs/boards.md dit comment le savoir.',
  zero: {
    taken: (quantity, counts, worth, before) =>
      `Zéro pris, ${quantity}\u202f: ${counts} comptes, soit ${worth} (avant\u202f: ${before}).`,
    range: (quantity) =>
      `Pas de zéro pris, ${quantity}\u202f: ce que lit la carte est trop loin de zéro. Arrête le ventilateur, attends que les pales soient immobiles, et vérifie les fils.`,
    busy: (quantity) =>
      `Pas de zéro pris, ${quantity}\u202f: la carte est occupée. Essaie encore dans un moment.`,
    unknown: (quantity) =>
      `Pas de zéro pris, ${quantity}\u202f: le sketch de la carte ne sait pas le faire.`,
    'not-announced': (quantity) =>
      `La carte dit qu’elle a pris le zéro (${quantity}), mais ne l’annonce pas. Regarde ses lectures.`,
    unanswered: (quantity) =>
      `La carte n’a pas répondu si elle a pris le zéro (${quantity}). Regarde ses lectures et essaie encore.`,
  },
};

const REFUSED: Readonly<Record<string, string>> = {
  range: 'c’est hors de ses limites',
  unknown: 'son sketch ne sait pas le faire',
};

const UNANSWERED: Readonly<Record<string, string>> = {
  identify:
    'On a demandé à la carte qui elle est, et son annonce n’est pas arrivée entière. Son sketch doit répondre à *IDN? avec $stillmark, $identity, une ligne $channel par voie, et $pace.',
  busy: 'La carte était trop occupée pour changer son rythme, et continue comme avant. Règle le rythme encore une fois.',
  pace: 'La carte ne répond pas quand on lui demande de changer son rythme, et continue comme avant. Vérifie que son sketch lit le port série.',
};

const PRESSED: Readonly<Record<string, (trial: string) => string>> = {
  none: () => 'il n’y a pas encore de mesure à barrer.',
  already: (trial) => `la mesure ${trial} est déjà barrée. Reprends-la dans la liste.`,
  struck: (trial) => `la mesure ${trial} est barrée. Pour revenir, reprends-la dans la liste.`,
  logged: (trial) => `gardée comme mesure ${trial}.`,
  'no-plan': () => 'il n’y a pas de plan à suivre.',
  'set-already': () => 'l’essai est déjà réglé.',
  set: () => 'le montage compte comme réglé pour l’essai suivant.',
};

const ORIGIN: Readonly<Record<string, string>> = {
  board: 'de ton propre montage',
  simulated: 'du montage simulé',
  imported: 'd’un fichier',
};

const UNNAMED: Readonly<Record<string, string>> = {
  time: 'Un seul nombre peut être le temps.',
  sequence: 'Un seul nombre peut compter les lignes.',
  twice: 'Deux nombres ne peuvent pas être la même grandeur\u202f: dis de l’un qu’il est inutilisé.',
  none: 'Dis au moins quel nombre est la tension, le courant ou le vent.',
};
