import { frBoard } from '../board/fr.ts';
import { frRemarks } from '../bench/fr-remarks.ts';
import { quantityIn } from '../board-words.ts';
import { planSaid, type RefusedWords } from '../refused-words.ts';

const LEFT = 'Cela reste tel quel et n’est pas utilisé.';

export const frRefused: RefusedWords = {
  notNow: {
    'logged-already': (trial) => `Ce moment est déjà gardé, comme mesure ${trial}.`,
    'too-little': () =>
      'Trop peu a été lu depuis le dernier changement ou la dernière mesure\u202f: attends quelques secondes.',
    turns: () => 'Le rotor tourne\u202f: il est gardé tout seul.',
    'nothing-to-undo': () => 'Il n’y a rien à annuler.',
    'no-run-left': () => 'Il ne reste aucun essai à régler.',
    'run-unknown': (run) => `Le plan n’a pas d’essai «\u202f${run}\u202f».`,
    'run-gone': (run) =>
      `Le plan n’a pas d’essai «\u202f${run}\u202f». Il a changé entre-temps\u202f: choisis à nouveau l’essai.`,
    'vote-unknown': (level) => `Le plan n’a pas de niveau «\u202f${level}\u202f» pour lequel voter.`,
    'not-here': () =>
      'Ce qui tourne n’est pas ton propre montage, et de vraies lectures n’y sont jamais mêlées. Choisis d’abord «\u202fPas de carte\u202f: deux appareils\u202f».',
    'readings-here': (trial) =>
      `Les mêmes lectures sont déjà gardées pour cet essai, comme mesure ${trial}.`,
    'rows-here': (trial) =>
      `Certaines de ces lignes sont déjà là, par exemple comme mesure ${trial}. Regarde encore l’aperçu.`,
    'no-reading': () => 'Il n’y a aucune lecture\u202f: tapes-en au moins une.',
    'beyond-meter': () =>
      'Une lecture dépasse ce que l’appareil montre dans ce calibre\u202f: vérifie les deux.',
    'no-trial-there': () => 'Il n’y a de mesure à aucun de ces moments.',
    'nothing-to-correct': (trial, quantity) =>
      `La mesure ${trial} n’a pas de ${quantityIn(frBoard.quantity, quantity ?? '')} à corriger ainsi. Laisse-la de côté.`,
    'no-calibration': () =>
      'Avec les corrections d’avant, cela ne fait pas un étalonnage. Regarde encore le facteur.',
    'fits-no-generator': () =>
      'Ces lectures ne disent ni la constante du générateur ni son bobinage.',
    'fits-no-lamp': () => 'Ces lectures ne sont pas celles d’une lampe à deux tensions ou plus.',
    'level-unknown': (level, factor) =>
      `Le plan n’a pas de niveau «\u202f${level}\u202f» pour «\u202f${factor}\u202f».`,
    'level-measured': (level) =>
      `Il y a déjà des essais à «\u202f${level}\u202f»\u202f: donne-leur les mesures une par une.`,
    'level-unfit': (level, ...pair) =>
      `Le plan ne peut pas avoir le niveau «\u202f${level}\u202f»\u202f: ${planSaid(frRemarks.obstacle, pair)}`,
  },
  door: {
    'no-address': (address) => `Cet ordinateur n’a pas l’adresse ${address} en ce moment.`,
    'not-opened': (address, reason) => `${address} n’a pas pu être ouverte (${reason}).`,
  },
  file: {
    'file-missing': 'Ce fichier n’est pas là. Vérifie son nom et son dossier.',
    'file-unusable': 'Le fichier ne peut pas être lu ou écrit.',
    'file-exists': 'Il y a déjà quelque chose là\u202f; rien n’est remplacé.',
    'file-not-session':
      'Ce n’est pas le fichier d’une séance, ou il n’est pas entier. Choisis-en un que Stillmark a gardé, et copie-le en entier.',
    'file-without-plan': 'Il n’y a pas dedans de plan que l’on puisse suivre.',
    'file-damaged':
      'Le fichier est abîmé\u202f: il a été changé ou coupé. Copie-le à nouveau de là où il a été gardé.',
    'file-too-new':
      'Un Stillmark plus récent a gardé ce fichier. Mets Stillmark à jour ici, puis reprends-le.',
    'file-too-large':
      'Le fichier contient plus que n’importe quelle leçon. Choisis-en un que Stillmark a gardé.',
  },
  damaged: {
    session: (id) => `L’entrée de la séance ${id} est abîmée. ${LEFT}`,
    recording: (id) =>
      `L’entrée de l’enregistrement ${id} est abîmée\u202f; l’heure de ses mesures n’est pas connue. ${LEFT}`,
    input_chunk: (recording, part) =>
      `La partie ${part} de l’enregistrement ${recording} est abîmée\u202f; les mesures valent, mais ne peuvent pas être refaites. ${LEFT}`,
    trial_revision: (trial, revision) =>
      `La mesure ${trial}, version ${revision}, est abîmée. ${LEFT}`,
    plateau: (recording) => `Un moment calme de l’enregistrement ${recording} est abîmé. ${LEFT}`,
    learnt: (recording) =>
      `Ce qui a été appris du calme dans l’enregistrement ${recording} est abîmé. ${LEFT}`,
    ledger: (recording) =>
      `Un état du plan dans l’enregistrement ${recording} est abîmé. ${LEFT}`,
    more: (count) => `${count} entrées de plus sont abîmées.`,
  },
};
