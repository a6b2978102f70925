package tomlread

import (
	"bytes"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Put returns the text of a TOML file with value at the key that path leads to. Of a key
// that stands there only the value changes; one that is missing comes to its table, and
// its table, where that is missing too, to the end of the file. All else stays as it is,
// comments too. A key that comes anew has the comment about behind it. The text must be
// one that Parse takes, and value TOML.
func Put(data []byte, path []string, value, about string) []byte {
	mark := bytes.TrimPrefix(data, []byte(byteOrderMark))
	p := placing{data: mark, path: path, value: value, newline: "\n"}
	if bytes.Contains(mark, []byte("\r\n")) {
		p.newline = "\r\n"
	}
	if about != "" {
		p.about = " # " + about
	}
	return p.put(data)
}

// Drop returns a file without the key of path, and as it is where the key stands nowhere. A
// comment behind the key stays, on a line of its own, unless it is about as Put writes it.
func Drop(data []byte, path []string, about string) []byte {
	mark := bytes.TrimPrefix(data, []byte(byteOrderMark))
	p := placing{data: mark, path: path, about: "# " + about, drops: true}
	return p.put(data)
}

// put returns the file with the text in its place.
func (p *placing) put(data []byte) []byte {
	p.look()
	mark := data[:len(data)-len(p.data)]
	return slices.Concat(mark, p.data[:p.best.from], []byte(p.best.text), p.data[p.best.to:])
}

const byteOrderMark = "\ufeff"

// A placing looks for the place of a key.
type placing struct {
	data         []byte
	path         []string
	value, about string
	newline      string
	drops        bool // the key goes: where it does not stand nothing changes
	best         place
}

// A place is what of a file gives way to a text. Of several the one of the highest rank
// is taken, and of equal ones the last.
type place struct {
	from, to int
	text     string
	rank     int
}

// The ranks of places: the key itself stands there, or an inline table that it belongs
// in, which can be added to nowhere else, or its table.
const (
	rankEnd = iota
	rankTable
	rankInline
	rankKey
)

func (p *placing) offer(at place) {
	if at.rank >= p.best.rank && (at.rank == rankKey || !p.drops) {
		p.best = at
	}
}

// parent is the table that the key stands in.
func (p *placing) parent() []string { return p.path[:len(p.path)-1] }

// said returns the line that says the key, named from its table on or by rest.
func (p *placing) said(rest []string) string { return strings.Join(rest, ".") + " = " + p.value }

// look goes once through the file.
func (p *placing) look() {
	p.offer(place{len(p.data), len(p.data), p.atEnd(), rankEnd})
	var parser unstable.Parser
	parser.Reset(p.data)
	table, one := []string{}, true
	for parser.NextExpression() {
		node := parser.Expression()
		switch node.Kind {
		case unstable.Table:
			names, end := keyOf(node)
			table, one = names, true
			if slices.Equal(table, p.parent()) {
				p.offer(p.below(end, "", p.path[len(table):]))
			}
		case unstable.ArrayTable:
			one = false // an entry of a list: its keys are no table's
		case unstable.KeyValue:
			if one {
				p.keyValue(table, node)
			}
		}
	}
}

// keyValue offers what a line of a table gives: its value, or the place below it.
func (p *placing) keyValue(table []string, node *unstable.Node) {
	names, end := keyOf(node)
	full := slices.Concat(table, names)
	p.within(full, end, node)
	parent := p.parent()
	if len(full) > len(parent) && slices.Equal(full[:len(parent)], parent) && len(table) <= len(parent) {
		stop := int(node.Raw.Offset + node.Raw.Length)
		start := bytes.LastIndexByte(p.data[:node.Raw.Offset], '\n') + 1
		p.offer(p.below(stop, indentOf(p.data[start:]), p.path[len(table):]))
	}
}

// within offers the value of the key full, which ends at end, where it is the one looked
// for, and the inside of an inline table that leads to it.
func (p *placing) within(full []string, end int, node *unstable.Node) {
	from, to := valueStart(p.data, end), int(node.Raw.Offset+node.Raw.Length)
	to = from + len(bytes.TrimRight(p.data[from:to], " \t\r\n"))
	if slices.Equal(full, p.path) {
		if p.drops {
			p.offer(p.gone(node, to))
			return
		}
		p.offer(place{from, to, p.value, rankKey})
		return
	}
	value := node.Value()
	if value.Kind != unstable.InlineTable || len(full) >= len(p.path) || !slices.Equal(full, p.path[:len(full)]) {
		return
	}
	brace := to - 1
	text, last := p.said(p.path[len(full):]), len(bytes.TrimRight(p.data[from:brace], " \t\r\n"))
	if it := value.Children(); it.Next() {
		text = ", " + text
	} else {
		text = " " + text + " "
	}
	p.offer(place{from + last, from + last, text, rankInline})
	for it := value.Children(); it.Next(); {
		names, end := keyOf(it.Node())
		p.within(slices.Concat(full, names), end, it.Node())
	}
}

// gone returns the place of a key that goes and whose value ends at to: its whole line, or in
// an inline table with one of the commas about it.
func (p *placing) gone(node *unstable.Node, to int) place {
	start := int(node.Raw.Offset)
	line := bytes.LastIndexByte(p.data[:start], '\n') + 1
	if before := bytes.TrimSpace(p.data[line:start]); len(before) > 0 {
		if behind, ok := bytes.CutPrefix(bytes.TrimLeft(p.data[to:], " \t"), []byte(",")); ok {
			return place{start, len(p.data) - len(bytes.TrimLeft(behind, " \t")), "", rankKey}
		}
		before = bytes.TrimRight(p.data[:start], " \t")
		return place{len(bytes.TrimSuffix(before, []byte(","))), to, "", rankKey}
	}
	rest, _, _ := bytes.Cut(p.data[to:], []byte("\n"))
	end := min(len(p.data), to+len(rest)+1)
	if comment := bytes.TrimSpace(rest); len(comment) > 0 && string(comment) != p.about {
		return place{line, to + bytes.IndexByte(rest, '#'), "", rankKey}
	}
	return place{line, end, "", rankKey}
}

// below returns the place below the line that at stands on.
func (p *placing) below(at int, indent string, rest []string) place {
	line := indent + p.said(rest) + p.about
	if end := bytes.IndexByte(p.data[at:], '\n'); end >= 0 {
		at += end + 1
		return place{at, at, line + p.newline, rankTable}
	}
	return place{len(p.data), len(p.data), p.newline + line + p.newline, rankTable}
}

// atEnd returns the key as it stands at the end of a file without its table.
func (p *placing) atEnd() string {
	var text string
	if len(p.data) > 0 && p.data[len(p.data)-1] != '\n' {
		text = p.newline
	}
	if parent := p.parent(); len(parent) > 0 {
		text += p.newline + "[" + strings.Join(parent, ".") + "]" + p.newline
	}
	return text + p.said(p.path[len(p.path)-1:]) + p.about + p.newline
}

// keyOf returns the parts of a node's key and where it ends.
func keyOf(node *unstable.Node) (names []string, end int) {
	for it := node.Key(); it.Next(); {
		n := it.Node()
		names = append(names, string(n.Data))
		end = int(n.Raw.Offset + n.Raw.Length)
	}
	return names, end
}

// valueStart returns where the value begins of the key that ends at end.
func valueStart(data []byte, end int) int {
	for end < len(data) && (data[end] == ' ' || data[end] == '\t' || data[end] == '=') {
		end++
	}
	return end
}

func indentOf(line []byte) string {
	return string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))])
}
