package tomlread

import (
	"errors"
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"

	"example.com/oddments/pattern/tell"
)

// kind says what a value is, as far as files of ours care.
type kind int

const (
	kindText kind = iota
	kindNumber
	kindBool
	kindDate
	kindTime // a time of day, or a date with one
	kindList
	kindTable
	kindTables // headings in double brackets
)

// noun returns the kind in the words of a message.
func (k kind) noun() string {
	return tell.Word(k, "kind", "text", "a number", "true or false", "a date", "a time", "a list", "a table", "a list of tables")
}

// A value is one value of the file and where it stands.
type value struct {
	kind  kind
	text  string   // of text: what it means; else as it is written
	at    int      // byte offset
	items []*value // of a list, or of tables
	table *Table
}

// An entry is one key of a table.
type entry struct {
	at    int
	value *value
}

// A key is one part of a dotted key.
type key struct {
	name string
	at   int
}

// build walks the file once and hangs every value into the tree. It refuses what is
// said twice.
func (d *Document) build() *FileError {
	var p unstable.Parser
	p.Reset(d.data)
	d.root = d.newTable(0, byHeading)
	d.tables = append(d.tables, d.root)
	current := d.root
	for p.NextExpression() {
		node := p.Expression()
		keys := d.keysOf(node)
		var clash *key
		switch node.Kind {
		case unstable.Table:
			current, clash = d.root.openTable(keys)
		case unstable.ArrayTable:
			current, clash = d.root.appendTable(keys)
		case unstable.KeyValue:
			var v *value
			if v, clash = d.valueOf(&p, node); clash == nil {
				clash = current.set(keys, v)
			}
		}
		if clash != nil {
			return d.errorAt(clash.at, "", "key "+Quote(clash.name)+" is given twice", readOn)
		}
	}
	if d.crowded != nil {
		return d.errorAt(d.crowded.at, "", fmt.Sprintf("more than %d keys in a table or %d entries in a list: no file of oddments has as many", maxKeys, maxItems), "")
	}
	var wrong *unstable.ParserError
	if err := p.Error(); errors.As(err, &wrong) {
		return d.syntax(int(p.Range(wrong.Highlight).Offset), wrong.Message)
	} else if err != nil {
		return d.syntax(len(d.data), err.Error())
	}
	return nil
}

func (d *Document) newTable(at int, o origin) *Table {
	return &Table{doc: d, at: at, origin: o, entries: map[string]*entry{}}
}

func (d *Document) keysOf(node *unstable.Node) []key {
	var keys []key
	for it := node.Key(); it.Next(); {
		n := it.Node()
		keys = append(keys, key{name: string(n.Data), at: int(n.Raw.Offset)})
	}
	return keys
}

// valueOf returns the value of a node that is a key with its value.
func (d *Document) valueOf(p *unstable.Parser, node *unstable.Node) (*value, *key) {
	end := 0
	for it := node.Key(); it.Next(); {
		raw := it.Node().Raw
		end = int(raw.Offset + raw.Length)
	}
	for end < len(d.data) && (d.data[end] == ' ' || d.data[end] == '\t' || d.data[end] == '=') {
		end++
	}
	return d.convert(p, node.Value(), end)
}

// convert makes a value of a node. The parser does not say where a list stands, so
// that comes from outside.
func (d *Document) convert(p *unstable.Parser, n *unstable.Node, at int) (*value, *key) {
	switch n.Kind {
	case unstable.Array:
		v := &value{kind: kindList, at: at}
		for it := n.Children(); it.Next(); {
			item, clash := d.convert(p, it.Node(), at)
			if clash != nil {
				return nil, clash
			}
			if v.items = append(v.items, item); len(v.items) > maxItems && d.crowded == nil {
				d.crowded = &key{at: at}
			}
		}
		return v, nil
	case unstable.InlineTable:
		return d.inlineTable(p, n)
	case unstable.String:
		return &value{kind: kindText, text: string(n.Data), at: int(n.Raw.Offset)}, nil
	default:
		return &value{kind: kindOf(n.Kind), text: string(n.Data), at: int(p.Range(n.Data).Offset)}, nil
	}
}

func (d *Document) inlineTable(p *unstable.Parser, n *unstable.Node) (*value, *key) {
	v := &value{kind: kindTable, at: int(n.Raw.Offset)}
	v.table = d.newTable(v.at, byHeading)
	for it := n.Children(); it.Next(); {
		child := it.Node()
		item, clash := d.valueOf(p, child)
		if clash == nil {
			clash = v.table.set(d.keysOf(child), item)
		}
		if clash != nil {
			return nil, clash
		}
	}
	v.table.close()
	return v, nil
}

func kindOf(k unstable.Kind) kind {
	switch k {
	case unstable.Integer, unstable.Float:
		return kindNumber
	case unstable.Bool:
		return kindBool
	case unstable.LocalDate:
		return kindDate
	default:
		return kindTime
	}
}

// An origin says how a table came about, and so what may be added to it.
type origin int

const (
	byPath    origin = iota // on the way of a longer heading
	byHeading               // by a heading of its own
	byDots                  // by a dotted key
	inBraces                // by an inline table, which is complete
)

// close makes t and the tables that its dotted keys made complete.
func (t *Table) close() {
	t.origin = inBraces
	for _, e := range t.entries {
		if e.value.kind == kindTable && e.value.table.origin != inBraces {
			e.value.table.close()
		}
	}
}

// child returns the table that a part of a key leads to, made by o where it is
// missing; nil where there is something else.
func (t *Table) child(k key, o origin) *Table {
	e := t.entries[k.name]
	if e == nil {
		v := &value{kind: kindTable, at: k.at, table: t.doc.newTable(k.at, o)}
		t.put(k, v)
		return v.table
	}
	v := e.value
	switch {
	case v.kind == kindTable && v.table.origin != inBraces && (o == byPath || v.table.origin == o):
		return v.table
	case v.kind == kindTables && o == byPath:
		return v.items[len(v.items)-1].table
	default:
		return nil
	}
}

// descend follows a key to the table that its last part stands in. It gives the part
// that leads elsewhere.
func (t *Table) descend(keys []key, o origin) (parent *Table, last key, clash *key) {
	end := len(keys) - 1
	for i := range end {
		next := t.child(keys[i], o)
		if next == nil {
			return t, keys[end], &keys[i]
		}
		t = next
	}
	return t, keys[end], nil
}

// openTable returns the table of a heading in single brackets.
func (t *Table) openTable(keys []key) (*Table, *key) {
	parent, last, clash := t.descend(keys, byPath)
	if clash != nil {
		return parent, clash
	}
	if e := parent.entries[last.name]; e != nil && (e.value.kind != kindTable || e.value.table.origin != byPath) {
		return parent, &last
	}
	opened := parent.child(last, byPath)
	opened.origin, opened.at = byHeading, last.at
	parent.entries[last.name].at, parent.entries[last.name].value.at = last.at, last.at
	return opened, nil
}

// appendTable returns the table of a heading in double brackets.
func (t *Table) appendTable(keys []key) (*Table, *key) {
	parent, last, clash := t.descend(keys, byPath)
	if clash != nil {
		return parent, clash
	}
	e := parent.entries[last.name]
	if e == nil {
		e = parent.put(last, &value{kind: kindTables, at: last.at})
	}
	if e.value.kind != kindTables {
		return parent, &last
	}
	item := &value{kind: kindTable, at: last.at, table: t.doc.newTable(last.at, byHeading)}
	e.value.items = append(e.value.items, item)
	return item.table, nil
}

// set puts a value under a key, which may be dotted.
func (t *Table) set(keys []key, v *value) *key {
	parent, last, clash := t.descend(keys, byDots)
	if clash == nil && parent.entries[last.name] != nil {
		clash = &last
	}
	if clash == nil {
		parent.put(last, v)
	}
	return clash
}

// put adds a key that the table does not have yet.
func (t *Table) put(k key, v *value) *entry {
	e := &entry{at: k.at, value: v}
	t.entries[k.name] = e
	if len(t.entries) > maxKeys && t.doc.crowded == nil {
		t.doc.crowded = &k
	}
	return e
}
