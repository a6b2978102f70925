package tomlread

import "bytes"

// tooDeep returns where brackets or dotted keys first lie deeper than maxDepth, or
// -1. The parser calls itself for each of them, and a stack that runs out cannot be
// caught, so this looks before it starts. It knows of TOML only where text and
// comments end, and stops at the first text that does not end: the parser goes no
// further than that either.
func tooDeep(data []byte) int {
	depth, dots := 0, 0
	for at := 0; at < len(data); {
		switch c := data[at]; c {
		case '#':
			end := bytes.IndexByte(data[at:], '\n')
			if end < 0 {
				return -1
			}
			at += end
			continue
		case '"', '\'':
			size := textSize(data[at:], c)
			if size < 0 {
				return -1
			}
			at += size
			continue
		case '[', '{':
			depth, dots = depth+1, 0
		case ']', '}':
			depth = max(depth-1, 0)
		case '=', ',', '\n':
			dots = 0
		case '.':
			dots++
		}
		if depth > maxDepth || dots > maxDepth {
			return at
		}
		at++
	}
	return -1
}

// textSize returns the length of the quoted text that data starts with, its quotes
// included, or -1 when it does not end.
func textSize(data []byte, quote byte) int {
	triple := bytes.Repeat([]byte{quote}, 3)
	long := bytes.HasPrefix(data, triple)
	at := 1
	if long {
		at = 3
	}
	for ; at < len(data); at++ {
		switch {
		case data[at] == '\\' && quote == '"':
			at++
		case data[at] == '\n' && !long:
			return -1
		case data[at] == quote && !long:
			return at + 1
		case long && bytes.HasPrefix(data[at:], triple):
			at += 3
			for extra := 0; extra < 2 && at < len(data) && data[at] == quote; extra++ {
				at++ // a long text may end in quotes of its own
			}
			return at
		}
	}
	return -1
}
