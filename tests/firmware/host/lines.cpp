/**
 * The library's pure part under test: reads one case a line, fields separated by tabs, and writes
 * one line with the result for each. The tests beside this file say what goes in.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <iostream>
#include <string>
#include <vector>

#include "StillmarkChannel.h"
#include "StillmarkFrames.h"
#include "StillmarkMean.h"
#include "StillmarkRequest.h"

using namespace stillmark;

namespace {

typedef std::vector<std::string> Fields;

[[noreturn]] void refuse(const std::string &what) {
  std::cerr << "no such case: " << what << "\n";
  exit(2);
}

Fields fieldsOf(const std::string &line) {
  Fields fields;
  size_t from = 0;
  for (size_t tab = line.find('\t'); tab != std::string::npos; tab = line.find('\t', from)) {
    fields.push_back(line.substr(from, tab - from));
    from = tab + 1;
  }
  fields.push_back(line.substr(from));
  return fields;
}

uint32_t u32(const std::string &text) { return static_cast<uint32_t>(std::stoul(text)); }
uint16_t u16(const std::string &text) { return static_cast<uint16_t>(std::stoul(text)); }
uint8_t u8(const std::string &text) { return static_cast<uint8_t>(std::stoul(text)); }
int32_t i32(const std::string &text) { return static_cast<int32_t>(std::stol(text)); }

template <size_t SIZE>
void copyText(char (&into)[SIZE], const std::string &text) {
  if (text.size() >= SIZE) refuse("too long a text: " + text);
  strcpy(into, text.c_str());
}

template <typename Kind>
Kind kindOf(const std::vector<std::string> &words, const std::string &word) {
  for (size_t index = 0; index < words.size(); index += 1) {
    if (words[index] == word) return static_cast<Kind>(index);
  }
  refuse(word);
}

bool writeIdentityCase(Queue &queue, const Fields &fields) {
  Identity identity;
  copyText(identity.maker, fields.at(1));
  copyText(identity.model, fields.at(2));
  copyText(identity.serial, fields.at(3));
  copyText(identity.firmware, fields.at(4));
  return writeIdentity(queue, identity);
}

bool writeChannelCase(Queue &queue, const Fields &fields) {
  Channel channel;
  copyText(channel.quantity, fields.at(2));
  copyText(channel.unit, fields.at(3));
  copyText(channel.scale, fields.at(4));
  copyText(channel.gain, fields.at(6));
  copyText(channel.offset, fields.at(7));
  copyText(channel.gainUncertainty, fields.at(8));
  copyText(channel.offsetUncertainty, fields.at(9));
  return writeChannel(queue, u8(fields.at(1)), channel, i32(fields.at(5)));
}

bool writeSampleCase(Queue &queue, const Fields &fields) {
  Sample sample;
  sample.clear();
  sample.sequence = u16(fields.at(1));
  sample.time = u32(fields.at(2));
  const uint8_t channels = static_cast<uint8_t>(fields.size() - 3);
  for (uint8_t index = 0; index < channels; index += 1) {
    const std::string &count = fields[index + 3u];
    if (!count.empty()) sample.set(index, i32(count));
  }
  return writeSample(queue, sample, channels);
}

bool writeCase(Queue &queue, const Fields &fields) {
  const std::string &tag = fields.at(0);
  if (tag == "stillmark") {
    return writeOpening(queue, kindOf<Cause>({"boot", "again"}, fields.at(2)), u8(fields.at(4)));
  }
  if (tag == "identity") return writeIdentityCase(queue, fields);
  if (tag == "channel") return writeChannelCase(queue, fields);
  if (tag == "pace") {
    return writePace(queue, {u32(fields.at(1)), u32(fields.at(2)), u32(fields.at(3))});
  }
  if (tag == "s") return writeSampleCase(queue, fields);
  if (tag == "button") {
    const Button button = kindOf<Button>({"log", "strike", "next"}, fields.at(3));
    return writeButton(queue, {u16(fields.at(1)), u32(fields.at(2)), button});
  }
  if (tag == "beat") return writeBeat(queue, u32(fields.at(2)));
  if (tag == "trouble") {
    return writeTrouble(queue, u8(fields.at(1)),
                        kindOf<Trouble>({"missing", "over", "under", "supply"}, fields.at(2)));
  }
  if (tag == "answer") {
    return writeAnswer(queue, kindOf<Asked>({"pace", "zero", "other"}, fields.at(1)),
                       kindOf<Result>({"done", "range", "busy", "unknown"}, fields.at(2)));
  }
  refuse(tag);
}

/** The line of a frame, whose fields are given as they stand in it. */
std::string written(const Fields &fields) {
  Queue queue;
  if (!writeCase(queue, fields)) return "no room";
  std::string line;
  while (!queue.isEmpty()) line += queue.take();
  return line.substr(0, line.size() - 1);
}

/** What the bytes, given in hexadecimal, ask for. */
std::string asked(const std::string &hexadecimal) {
  RequestReader reader;
  std::string requests;
  for (size_t at = 0; at + 1 < hexadecimal.size(); at += 2) {
    const char byte = static_cast<char>(std::stoi(hexadecimal.substr(at, 2), nullptr, 16));
    const Request request = reader.take(byte);
    switch (request.kind) {
      case Request::Kind::none:
        break;
      case Request::Kind::identify:
        requests += "identify;";
        break;
      case Request::Kind::pace:
        requests += "pace " + std::to_string(request.value) + ";";
        break;
      case Request::Kind::zero:
        requests += "zero " + std::to_string(request.value) + ";";
        break;
      case Request::Kind::other:
        requests += "other;";
        break;
    }
  }
  return requests;
}

const char *yesOrNo(bool is) { return is ? "yes" : "no"; }

std::string resultOf(const Fields &fields) {
  const std::string &kind = fields.at(0);
  if (kind == "ask") return asked(fields.at(1));
  if (kind == "is text") return yesOrNo(isText(fields.at(1).c_str()));
  if (kind == "is decimal") return yesOrNo(isDecimal(fields.at(1).c_str()));
  if (kind == "is uncertainty") return yesOrNo(isUncertainty(fields.at(1).c_str()));
  if (kind == "mean") return std::to_string(meanOf(i32(fields.at(1)), u16(fields.at(2))));
  return written(fields);
}

}  // namespace

int main() {
  std::string line;
  while (std::getline(std::cin, line)) std::cout << resultOf(fieldsOf(line)) << "\n";
}
