#!/usr/bin/env python3
"""Writes the test vectors beside this file: python3 make.py

The lines are written down here by hand; their checksums come from Python's own
binascii.crc_hqx, an implementation that has nothing to do with ours. Numbers are the
doubles that Python's float() reads. Made with Python 3.11; nothing in it is random.
"""
import binascii
import functools
import json
import operator
import pathlib

HERE = pathlib.Path(__file__).parent
VERSION = 1
GRAMMAR = 1


def sealed(body: str) -> str:
    return f"${body}*{binascii.crc_hqx(body.encode('ascii'), 0xFFFF):04X}"


def write(name: str, note: str, **lists) -> None:
    head = {"vectors": VERSION, "grammar": GRAMMAR, "note": note}
    rows = []
    for key, value in head.items():
        rows.append(f"  {json.dumps(key)}: {json.dumps(value)}")
    for key, entries in lists.items():
        inner = ",\n".join("    " + json.dumps(entry) for entry in entries)
        rows.append(f"  {json.dumps(key)}: [\n{inner}\n  ]")
    (HERE / name).write_text("{\n" + ",\n".join(rows) + "\n}\n", encoding="ascii", newline="\n")


def good(body, **frame):
    return {"line": sealed(body), "frame": frame}


def bad(line, fault="malformed"):
    return {"line": line, "fault": fault}


def channel(body, number, quantity, unit, scale, zero, gain, offset, gain_u, offset_u):
    return good(
        body, kind="channel", number=number, quantity=quantity, unit=unit, scale=scale, zero=zero,
        gain=gain, offset=offset, gainUncertainty=gain_u, offsetUncertainty=offset_u,
    )


GOOD_LINES = [
    good("stillmark,1,boot,us,3", kind="opening", cause="boot", timeUnit="us", channelCount=3),
    good("stillmark,1,again,ms,16", kind="opening", cause="again", timeUnit="ms", channelCount=16),
    good("stillmark,2", kind="foreign", version=2),
    good("stillmark,2,whatever,comes;then", kind="foreign", version=2),
    good("stillmark,0,boot,us,3", kind="foreign", version=0),
    good("beat,7,12,13", kind="foreign", version=7),
    good("identity,Own workshop,bench-5V,0,1.0", kind="identity", maker="Own workshop",
         model="bench-5V", serial="0", firmware="1.0"),
    good("identity,a!\"#%&'()+-./:;<=>?@,[]^_`{|}~,\\,b", kind="identity",
         maker="a!\"#%&'()+-./:;<=>?@", model="[]^_`{|}~", serial="\\", firmware="b"),
    channel("channel,1,voltage,mV,19.55,0,1,0,0.006,5", 1, "voltage", "mV", 19.55, 0, 1, 0, 0.006, 5),
    channel("channel,2,current,mA,0.1220703125,-37,1.0025,0.2,,", 2, "current", "mA", 0.1220703125,
            -37, 1.0025, 0.2, None, None),
    channel("channel,3,windPulses,count,1,0,1,0,,", 3, "windPulses", "count", 1, 0, 1, 0, None, None),
    channel("channel,16,brightness,lux,1e-3,2147483647,-1.5E+2,+.5,0,0", 16, "brightness", "lux",
            1e-3, 2147483647, -150, 0.5, 0, 0),
    good("pace,10000,1000,200000", kind="pace", period_us=10000, shortest_us=1000, longest_us=200000),
    good("s,0,0,0", kind="sample", sequence=0, time=0, counts=[0]),
    good("s,1,10000,512,300,41", kind="sample", sequence=1, time=10000, counts=[512, 300, 41]),
    good("s,65535,4294967295,-2147483648,2147483647", kind="sample", sequence=65535,
         time=4294967295, counts=[-2147483648, 2147483647]),
    good("s,2,20000,,-1,", kind="sample", sequence=2, time=20000, counts=[None, -1, None]),
    good("s,3,30000," + ",".join(str(i) for i in range(16)), kind="sample", sequence=3, time=30000,
         counts=list(range(16))),
    good("button,0,123456,log", kind="button", number=0, time=123456, button="log"),
    good("button,65535,4294967295,strike", kind="button", number=65535, time=4294967295,
         button="strike"),
    good("button,1,5,next", kind="button", number=1, time=5, button="next"),
    good("beat,1,4294967295", kind="beat", time=4294967295),
    good("trouble,0,supply", kind="trouble", channel=0, trouble="supply"),
    good("trouble,2,over", kind="trouble", channel=2, trouble="over"),
    good("trouble,16,missing", kind="trouble", channel=16, trouble="missing"),
    good("trouble,1,under", kind="trouble", channel=1, trouble="under"),
    good("answer,pace,done", kind="answer", request="pace", result="done"),
    good("answer,zero,busy", kind="answer", request="zero", result="busy"),
    good("answer,pace,range", kind="answer", request="pace", result="range"),
    good("answer,other,unknown", kind="answer", request="other", result="unknown"),
]

SAMPLE = sealed("s,1,10010,512,300,41")
WITHOUT = SAMPLE[:-5]
BAD_LINES = [
    bad(""), bad("$"), bad("$*"), bad("$*FFFF"), bad("hello"), bad("1.0,2.0,3.0"),
    bad(SAMPLE[1:]), bad(" " + SAMPLE), bad(SAMPLE + " "), bad(SAMPLE[:-1]), bad(SAMPLE + "0"),
    bad(WITHOUT), bad(WITHOUT + "*"), bad(SAMPLE[:-4] + SAMPLE[-4:].lower()),
    bad(SAMPLE.replace("*", "#")), bad(SAMPLE[:-4] + "GGGG"),
    # An eight-bit XOR in two digits, as other lines of this look have it.
    bad(f"{WITHOUT}*{functools.reduce(operator.xor, WITHOUT[1:].encode()):02X}"),
    # One digit wrong, two swapped, one lost, one doubled, two lines run together.
    bad(SAMPLE.replace("512", "513"), "checksum"),
    bad(SAMPLE.replace("512", "521"), "checksum"),
    bad(SAMPLE.replace("512", "52"), "checksum"),
    bad(SAMPLE.replace("512", "5112"), "checksum"),
    bad(SAMPLE.replace(",512,", ",,"), "checksum"),
    bad(SAMPLE.replace("$s", "$S"), "checksum"),
    bad(SAMPLE[:12] + SAMPLE, "checksum"),
    bad(WITHOUT + "*0000", "checksum"),
    # The checksum of CRC-16/XMODEM (initial value 0) is another one.
    bad(f"{WITHOUT}*{binascii.crc_hqx(WITHOUT[1:].encode(), 0):04X}", "checksum"),
] + [bad(sealed(body)) for body in [
    "", "s", "s,", "s,1", "s,1,2", "s,,2,3", "s,1,,3", "s,65536,1,1", "s,1,4294967296,1",
    "s,-1,1,1", "s,1,-1,1", "s,01,1,1", "s,1,1,01", "s,1,1,-0", "s,1,1,+1", "s,1,1,-", "s,1,1,1.0",
    "s,1,1,1e3", "s,1,1, 1", "s,1,1,0x1", "s,1,1,nan", "s,1,1,2147483648", "s,1,1,-2147483649",
    "s,1,1,12abc", "s,1,1,1,*", "s,1,1,1;2",
    "s,1,1," + ",".join("1" for _ in range(17)),
    "sample,1,2,3", "S,1,2,3", "stillmark", "stillmark,", "stillmark,x", "stillmark,01,boot,us,3",
    "stillmark,1", "stillmark,1,boot,us", "stillmark,1,start,us,3", "stillmark,1,boot,s,3",
    "stillmark,1,boot,us,0", "stillmark,1,boot,us,17", "stillmark,1,boot,us,3,4",
    "stillmark,65536", "identity,a,b,c", "identity,a,b,c,d,e", "identity,a,b,,d",
    "identity,a,b,c*,d", "identity,a,b,$c,d", "identity,a,b,c\td,e", "identity,a,b,c," + "x" * 41,
    "channel,0,voltage,V,1,0,1,0,,", "channel,17,voltage,V,1,0,1,0,,", "channel,1,voltage,V,1,0,1,0,",
    "channel,1,voltage,V,1,0,1,0,,,", "channel,1,,V,1,0,1,0,,", "channel,1,voltage,V,,0,1,0,,",
    "channel,1,voltage,V,1,0.5,1,0,,", "channel,1,voltage,V,nan,0,1,0,,",
    "channel,1,voltage,V,1e999,0,1,0,,", "channel,1,voltage,V,1,0,1,0,-0.1,",
    "channel,1,voltage,V,1,0,1.,0,,", "channel,1,voltage,V,1,0,0x1,0,,",
    "pace,0,1,2", "pace,1,2", "pace,1,2,3,4", "pace,1.5,1,2", "pace,4294967296,1,2",
    "button,1,2,press", "button,1,2,LOG", "button,65536,2,log", "button,1,log", "beat", "beat,1",
    "beat,1,", "beat,1,-5", "beat,1,5,6", "trouble,1,broken", "trouble,17,over", "trouble,over",
    "answer,done", "answer,pace,ok", "answer,rate,done", "ask,pace,10000", "other", "foreign,2",
]]

write("board-lines.json", "Lines that a board sends, without line end: the frame that each says, or its fault.",
      good=GOOD_LINES, bad=BAD_LINES)

write("host-lines.json", "Lines that the host sends, without line end: the request that each makes, or its fault.",
      good=[
          {"line": "*IDN?", "request": {"kind": "identify"}},
          {"line": sealed("ask,pace,10000"), "request": {"kind": "pace", "period_us": 10000}},
          {"line": sealed("ask,pace,4294967295"), "request": {"kind": "pace", "period_us": 4294967295}},
          {"line": sealed("ask,zero,2"), "request": {"kind": "zero", "channel": 2}},
      ],
      bad=[bad(line) for line in [
          "", "*IDN", "*idn?", "*IDN? ", " *IDN?", "AT", "AT+GMI", "ask,pace,10000",
          sealed("ask,pace,0"), sealed("ask,pace,"), sealed("ask,pace"), sealed("ask,zero,0"),
          sealed("ask,zero,17"), sealed("ask,zero,1,2"), sealed("ask,other,1"), sealed("zero,1"),
          sealed("*IDN?"), sealed("s,1,2,3"),
      ]] + [bad(sealed("ask,zero,2").replace("2*", "3*"), "checksum")])

NUMBERS = [
    "0", "7", "007", "42", "+1", "-1", "-0", "0.5", ".5", "-.5", "+.5e1", "12.34", "1e3", "1E3",
    "1e+3", "1e-3", "1.5e-7", "123456789012345", "1234567890123456789", "9007199254740993",
    "0.1", "0.3", "2.675", "1.005", "4.35", "1e22", "1e23", "123456789012345e22", "5e-324", "1e308",
    "1.7976931348623157e308", "2.2250738585072011e-308", "0.000001", "179.9999999999999999",
    "8.41e21", "9.5367431640625e-7", "100000000000000008388608", "00000000000000000000001.5",
]
write("numbers.json",
      "Numbers of plain lines with the double that each is; texts that are none; texts for a missing reading.",
      numbers=[{"text": text, "value": float(text)} for text in NUMBERS],
      refused=["12abc", "abc", "0x10", "1.2.3", "1,5", "1 000", "1_000", "5.", "-5.", ".", "-", "+",
               "--1", "+-1", "e3", "1e", "1e+", "1e3.5", "1e3e3", "infinite", "nano", "#", "1-", "NA",
               "null", "true", "1d3", "1f", "0b1", "1;2"],
      missing=["", "nan", "NaN", "NAN", "-nan", "inf", "INF", "-inf", "+inf", "infinity", "ovf", "OVF",
               "-ovf", "1e999", "-1e999"])

HEADER = "time_ms,voltage_V,current_mA,wind_mps"


def data(line, result, header=HEADER):
    key = "fault" if isinstance(result, str) else "values"
    return {"header": header, "line": line, key: result}


write("plain-lines.json",
      "Headers with what each column is (null: no header); data lines under a header with their numbers"
      " as they stand (null: missing), or their fault.",
      headers=[
          {"line": HEADER, "columns": ["time", "voltage", "current", "windSpeed"]},
          {"line": "voltage_mV;current_uA;wind_kmph;seq", "columns": ["voltage", "current", "windSpeed", "sequence"]},
          {"line": "time_us\tvoltage_V\trotor_rpm\tpulses_count", "columns": ["time", "voltage", "rotorSpeed", "pulses"]},
          {"line": "time_s voltage_V  fan_duty", "columns": ["time", "voltage", "ignored"]},
          {"line": "time_s,voltage_V,current_A,windSpeed_mps,rotorSpeed_radps",
           "columns": ["time", "voltage", "current", "windSpeed", "rotorSpeed"]},
          {"line": "\"time_s\", \"voltage_V\",\"note, \"\"free\"\"\"", "columns": ["time", "voltage", "ignored"]},
          {"line": " Voltage_V , wind_speed_mph ", "columns": ["voltage", "windSpeed"]},
          {"line": "windPulses_count,rotorPulses_count,temperature_degC,pressure_hPa,humidity_pct",
           "columns": ["windPulses", "rotorPulses", "temperature", "pressure", "humidity"]},
          {"line": "voltage_V,current_ma", "columns": ["voltage", "ignored"]},
          {"line": "voltage_V,", "columns": ["voltage", "ignored"]},
          {"line": "voltage_V,time", "columns": ["voltage", "ignored"]},
          {"line": "voltage,current", "columns": None},
          {"line": "time_ms,seq", "columns": None},
          {"line": "wind_mps sensor missing", "columns": None},
          {"line": "voltage_V,1.5", "columns": None},
          {"line": "ready", "columns": None},
          {"line": "1,2,3,4", "columns": None},
          {"line": "", "columns": None},
      ],
      lines=[
          data("10,1.5,100,4.2", [10, 1.5, 100, 4.2]),
          data(" 10 ,\t1.5, 100,4.2 ", [10, 1.5, 100, 4.2]),
          data("10,\t1.5,\t100,\t4.2", [10, 1.5, 100, 4.2]),
          data("10;1.5;100;4.2", [10, 1.5, 100, 4.2], HEADER.replace(",", ";")),
          data("10\t1.5\t100\t4.2", [10, 1.5, 100, 4.2], HEADER.replace(",", "\t")),
          data("10 1.5 \t 100 4.2 ", [10, 1.5, 100, 4.2], HEADER.replace(",", " ")),
          data("10,nan,ovf,-inf", [10, None, None, None]),
          data("10,,,4.2", [10, None, None, 4.2]),
          data("10\t\t100\t4.2", [10, None, 100, 4.2], HEADER.replace(",", "\t")),
          data("10,-0.5,1e2,+4.20", [10, -0.5, 100, 4.2]),
          data("10,1.5,100", "fieldCount"),
          data("10,1.5,100,4.2,", "fieldCount"),
          data("10,1.5,100,4.2,7", "fieldCount"),
          data("10,1.5,100,4.2abc", "malformed"),
          data("12abc,1.5,100,4.2", "malformed"),
          data("10,1.5.2,100,4.2", "malformed"),
          data("10,0x1F,100,4.2", "malformed"),
          data("10,1.5 2,100,4.2", "malformed"),
          data("10,1.5,100,4.", "malformed"),
          data("10;1,5;100;4,2", "malformed", HEADER.replace(",", ";")),
          data("10\t1,5\t100\t4,2", "malformed", HEADER.replace(",", "\t")),
          data("10\t1,5\t100\t", "malformed", HEADER.replace(",", "\t")),
          data("10;1.5;100;4.2", "malformed"),
          data("10 1.5 100 4.2", "malformed"),
          data("10,1.5;100,4.2", "malformed"),
          data("10,--,100,4.2", "malformed"),
          data("hello", "malformed"),
          data("10,1.510,1.5,100,4.2", "fieldCount"),
          data("1.5,note", [1.5, None], "voltage_V,note"),
          data("1.5,2 or 3", [1.5, None], "voltage_V,note"),
      ])


def guarded(lines, *chunks, too_long=0, malformed=0):
    return {"chunks": [chunk.hex() for chunk in chunks], "lines": lines, "tooLong": too_long,
            "malformed": malformed}


write("guard.json", "Bytes as they arrive (hexadecimal, in chunks), the lines that pass, and how many were dropped.",
      cases=[
          guarded([]), guarded([], b""), guarded([], b"no end"), guarded(["a"], b"a\n"),
          guarded(["a", "b"], b"a\r\nb\r\n"), guarded(["a", "b"], b"a\rb\r"), guarded(["a"], b"a\r", b"\n"),
          guarded(["a", "b"], b"\n\r\n\r\ra\n\n\nb\n"), guarded(["ab"], b"a", b"b", b"\n"),
          guarded(["1\t2 ~"], b"1\t2 ~\n"),
          guarded(["ok"], b"1\x002\nok\n", malformed=1), guarded(["ok"], b"1\x7f\nok\n", malformed=1),
          guarded(["ok"], "µA,°C\nok\n".encode(), malformed=1),
          guarded(["ok"], b"\xff\xfe\x00\nok\n", malformed=1), guarded([], b"1\x1b[0m", malformed=1),
          guarded(["x" * 256], b"x" * 256 + b"\n"), guarded([], b"x" * 257 + b"\n", too_long=1),
          guarded(["ok"], b"x" * 200, b"x" * 200, b"x" * 200 + b"\rok\n", too_long=1),
          guarded([], b"x" * 300 + b"\x00\n", too_long=1), guarded([], b"x\x00" + b"x" * 300 + b"\n", malformed=1),
          guarded(["b"], b"\x00\n\x01\r\n" + b"y" * 999 + b"\nb\n", too_long=1, malformed=2),
      ])
