/**
 * Lines that wait to be sent. A line goes in whole or not at all: it is drafted behind the others
 * and counts only once committed, so a full queue never cuts a line.
 */
#pragma once

#include <stdint.h>

namespace stillmark {

class Queue {
 public:
  bool isEmpty() const { return head_ == tail_; }

  /** Adds to the draft. */
  void put(char character) {
    const uint8_t next = static_cast<uint8_t>(draft_ + 1);
    if (next == tail_) {
      isOver_ = true;
    } else {
      bytes_[draft_] = character;
      draft_ = next;
    }
  }

  /** Makes the draft part of the queue; false, and the draft is gone, where it did not fit. */
  bool commit() {
    const bool fits = !isOver_;
    if (fits) head_ = draft_;
    draft_ = head_;
    isOver_ = false;
    return fits;
  }

  /** The oldest character; the queue must not be empty. */
  char take() { return bytes_[tail_++]; }

  /** Drops all; in the middle of a line its end stays, so that no other line is fused to it. */
  void clear(bool isInLine) {
    head_ = tail_;
    if (isInLine) {
      while (bytes_[head_++] != '\n') {
      }
    }
    draft_ = head_;
    isOver_ = false;
  }

 private:
  // Before the bytes: what lies near the start of an object is quick to reach on an 8-bit board.
  uint8_t head_ = 0;
  uint8_t tail_ = 0;
  uint8_t draft_ = 0;
  bool isOver_ = false;
  /** Places wrap by themselves in eight bits; one stays free to tell full from empty. */
  char bytes_[256];
};

}  // namespace stillmark
