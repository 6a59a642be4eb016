/**
 * A measured series nobody here made, with levels that people marked: the nuclear magnetic response
 * of rock along a borehole (J. J. K. Ó Ruanaidh, W. J. Fitzgerald, Numerical Bayesian Methods Applied
 * to Signal Processing, Springer 1996), every sixth reading, and the changes that its annotators
 * marked: the Turing Change Point Dataset (G. J. J. van den Burg, C. K. I. Williams, arXiv
 * 2003.06222), github.com/alan-turing-institute/TCPD, well_log.json and annotations.json; MIT
 * licence, © The Alan Turing Institute. Here its first 462 readings, in hundreds; one of the five
 * annotators marked only one change in them and is not counted.
 */
import { describe, expect, it } from 'vitest';
import type { Plateau } from '#core/signal/plateau.ts';
import { createDetector, finish, observe } from '#core/signal/settling/detector.ts';
import { studentTQuantile } from '#core/statistics/student-t.ts';

// prettier-ignore
const READINGS = [
  1335, 1214, 997, 1022, 1102, 1129, 1091, 1139, 1089, 1115, 1091, 1099, 1139, 1089, 1150, 1106,
  1111, 1111, 1115, 1114, 1160, 1129, 1129, 1112, 1107, 1156, 1126, 1123, 1143, 1098, 1139, 1111,
  1127, 1131, 1167, 1123, 1093, 1113, 1131, 1118, 1149, 1155, 1140, 1103, 1159, 1141, 1082, 1136,
  1094, 1090, 1115, 1070, 1120, 1118, 1112, 1130, 1111, 1117, 1141, 1094, 1106, 1077, 1110, 1096,
  1118, 1080, 1120, 1126, 1111, 1124, 1087, 1111, 1096, 1120, 1061, 1137, 1117, 1143, 1101, 1133,
  1124, 1148, 1129, 1094, 1125, 1111, 1052, 1135, 1085, 1146, 1132, 1111, 1135, 1098, 1126, 1072,
  1120, 1093, 1127, 1153, 1127, 1132, 1137, 1075, 1133, 1125, 1095, 1125, 1136, 1127, 1146, 1109,
  1152, 1172, 1165, 1138, 1109, 1129, 1131, 1131, 1124, 1104, 1084, 1159, 1097, 1107, 1109, 1132,
  1109, 1082, 1121, 1093, 1154, 1136, 1134, 1117, 1136, 1155, 1147, 1117, 1141, 1149, 1121, 1162,
  1166, 1131, 1133, 1105, 1154, 1183, 1102, 1147, 1147, 1110, 1148, 1144, 1139, 1113, 1184, 1105,
  1125, 1128, 1160, 1086, 1102, 1142, 1144, 1128, 1088, 1130, 1139, 1082, 1108, 1068, 1051, 1040,
  1067, 1024, 1092, 1254, 1316, 1281, 1312, 1289, 1259, 1268, 1285, 1242, 1309, 1240, 1278, 1276,
  1254, 1283, 1280, 1304, 1294, 1233, 1254, 1224, 1278, 1274, 907, 848, 1293, 1279, 1310, 1253,
  1269, 1286, 1320, 1258, 1280, 1269, 1302, 1252, 1279, 1311, 1320, 1262, 1277, 1288, 1273, 1295,
  1291, 1276, 1266, 1253, 1256, 1263, 1244, 1278, 1248, 1269, 1243, 1241, 1217, 1263, 861, 1230,
  1272, 1257, 1237, 1270, 1232, 1309, 1253, 1285, 1286, 1252, 1272, 1265, 1288, 1211, 1258, 1363,
  1364, 1337, 1333, 1387, 1379, 1353, 1325, 1336, 1342, 1282, 1361, 1354, 1357, 1363, 1336, 1351,
  1347, 1379, 1358, 1324, 1371, 1338, 1342, 1363, 1361, 1207, 1101, 1103, 1147, 1163, 1148, 1184,
  1116, 1158, 1168, 1187, 1142, 1186, 1129, 1139, 1182, 1144, 1131, 1170, 1127, 1170, 1171, 1154,
  1191, 1136, 1181, 1153, 1170, 1136, 1149, 1227, 1290, 1314, 1319, 1267, 1258, 1269, 1283, 1267,
  1300, 1292, 1307, 1300, 1295, 1281, 1318, 1313, 1294, 1299, 1320, 1290, 1275, 1330, 1270, 1286,
  1303, 1306, 1220, 1268, 1298, 1247, 1252, 1159, 1161, 1219, 1193, 1209, 1211, 1196, 1195, 1182,
  1187, 1223, 1195, 1135, 1224, 1202, 1215, 1208, 1183, 1195, 1212, 1214, 1187, 1215, 1223, 1187,
  1218, 1210, 1229, 1177, 1197, 1196, 1196, 1174, 1205, 1169, 1189, 1205, 1196, 1208, 1199, 1202,
  1159, 1170, 1182, 1180, 1162, 1135, 1194, 1161, 1163, 1191, 1207, 1187, 1169, 1210, 1164, 1222,
  1159, 1144, 1336, 1380, 1305, 1365, 1378, 1367, 1359, 1371, 1346, 1384, 1234, 1186, 1184, 1199,
  1169, 1222, 1189, 1183, 1178, 1185, 1303, 1303, 1293, 1288, 1265, 1273, 1296, 1328, 1294, 1298,
  1140, 1134, 1149, 1157, 1185, 1139, 1175, 1120, 1142, 1146, 1137, 1178, 1155, 1116, 1165, 1150,
  1181, 1124, 1168, 1167, 1150, 1215, 1150, 1171, 1227, 1168, 1157, 1173, 1183, 1141,
];

/** Marked by the other four, to a reading. */
const CHANGES = [179, 255, 281, 311, 343, 402, 412, 422, 432];
/** Levels of ten readings each: nothing is asked of them but that no plateau lies across two. */
const SHORT = 12;
const LEVELS = [0, ...CHANGES].map((from, i) => ({ from, to: [...CHANGES, READINGS.length][i]! }));
const LONG = LEVELS.filter(({ from, to }) => to - from > SHORT);

function middleOf(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

function plateausAt(readingsPerS: number): Plateau[] {
  const detector = createDetector(null);
  const samples = READINGS.map((reading, i) => ({
    time_s: i / readingsPerS,
    voltage_V: reading / 500,
    current_A: reading / 10_000,
    windSpeed_mps: null,
    rotorSpeed_radps: null,
  }));
  return [...samples.flatMap((sample) => observe(detector, sample)), ...finish(detector)].flatMap(
    (event) => (event.kind === 'closed' && !event.plateau.withdrawn ? [event.plateau] : []),
  );
}

/** Intersection over union of a plateau with a level. */
function overlapOf({ start_s, end_s }: Plateau, rate: number, level: { from: number; to: number }) {
  const [from, to] = [start_s * rate, end_s * rate];
  const both = Math.max(Math.min(to, level.to) - Math.max(from, level.from), 0);
  return both / (Math.max(to, level.to) - Math.min(from, level.from));
}

// The shortest long level lasts for 17 and 13 s; at 3 a second and faster some pass for one.
describe.each([1.5, 2])('the well log, played at %d readings a second', (rate) => {
  const plateaus = plateausAt(rate);

  it('has a plateau on each long level but one at most, and none that is on no level', () => {
    const found = LONG.filter((level) => plateaus.some((one) => overlapOf(one, rate, level) >= 0.5));
    expect(found.length).toBeGreaterThanOrEqual(LONG.length - 1);
    const stray = plateaus.filter((one) => !LONG.some((level) => overlapOf(one, rate, level) >= 0.5));
    expect(stray).toEqual([]);
  });

  it('has means that are those of the levels, within their intervals', () => {
    for (const one of plateaus) {
      const level = LONG.find((candidate) => overlapOf(one, rate, candidate) >= 0.5)!;
      const { mean, standardUncertainty, degreesOfFreedom } = one.estimates.voltage_V!;
      const half = studentTQuantile(0.975, degreesOfFreedom) * standardUncertainty;
      const truth = middleOf(READINGS.slice(level.from, level.to)) / 500;
      expect(Math.abs(mean - truth)).toBeLessThan(half);
      // Nor so wide that neighbouring levels, 6 % and more apart, could be meant.
      expect(half / truth).toBeLessThan(0.03);
    }
  });
});
