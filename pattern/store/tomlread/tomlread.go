// Package tomlread reads a TOML file strictly and gathers all that is wrong with it.
//
// Parse reads the text into a tree that knows where each value stands; what asks
// for values goes down the tree from Root and says of each key whether the file
// must have it; Finish then refuses every key that nobody asked for and gives all
// errors at once, sorted by line. A value that is wrong is reported and leaves its
// target as it was, so that reading goes on. Dotted keys and inline tables read
// like tables.
//
// What cannot be trusted further is reported alone: text that is no UTF-8, a
// syntax error, a key given twice, a file of another kind or of a newer format.
//
// A field is named as one says it: the keys from the outside in, parted by spaces,
// with the number of the entry, from 1, where there are several: "panel length",
// "strip 3 width" (of the third [[strip]] in the file), "piece 2 faults 1".
// Columns count characters from 1. A missing key is reported where the heading of
// its table stands, in the first line for a key outside all tables.
package tomlread

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"sort"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
)

// MaxBytes is the longest file that Parse takes. A pattern of the most strips,
// each with every key, is half as long.
const MaxBytes = 4 << 20

// maxDepth bounds tables in tables: nothing of ours goes deeper than four, and the
// parser calls itself once a level.
const maxDepth = 64

// maxKeys bounds the keys of one table; the most that any of ours has is 22.
const maxKeys = 1000

// maxItems bounds a list in brackets; strips may be written so.
const maxItems = 20_000

// maxErrors bounds what is gathered: nobody reads more, and finding the column of
// each takes time.
const maxErrors = 1000

const readOn = "the rest of the file is looked at once this is right"

// A Document is one file that is being read. It is for one goroutine.
type Document struct {
	file    string
	data    []byte // without a byte order mark
	lines   []int  // where each line starts
	root    *Table
	tables  []*Table // all that were asked for
	errs    Errors
	more    bool       // errors were left out
	crowded *key       // the first key or item too many
	alone   *FileError // stands instead of all others
}

// Parse reads the file of the given name from r. The error is of type Errors, or
// r's own.
func Parse(file string, r io.Reader) (*Document, error) {
	d, err := Open(file, r)
	if err != nil {
		return nil, err
	}
	if e := d.parse(); e != nil {
		return nil, Errors{*e}
	}
	return d, nil
}

// Open reads the file of the given name from r for those who part it themselves, as a
// sheet is: Place then gives what stands in it. The error is of type Errors, or r's own.
func Open(file string, r io.Reader) (*Document, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	d := &Document{file: file, data: bytes.TrimPrefix(data, []byte("\ufeff"))}
	if len(data) > MaxBytes {
		d.data = nil
		return nil, Errors{{File: file, Message: fmt.Sprintf("longer than %d MiB: no file of oddments is", MaxBytes>>20)}}
	}
	d.lines = lineStarts(d.data)
	if at := invalidUTF8(d.data); at >= 0 {
		return nil, Errors{*d.errorAt(at, "", "the text is not UTF-8", "save it as UTF-8")}
	}
	return d, nil
}

// Data returns the file without its byte order mark.
func (d *Document) Data() []byte { return d.data }

// Place returns text that stands in a line at a column, both from 1 and the column in
// bytes, as a field of that name; empty text is missing.
func (d *Document) Place(name, text string, line, column int) Field {
	return Field{doc: d, at: d.byteAt(line, column)}.With(name, text)
}

func (d *Document) parse() *FileError {
	if at := tooDeep(d.data); at >= 0 {
		return d.errorAt(at, "", fmt.Sprintf("more than %d levels of brackets or dots", maxDepth), "")
	}
	// The tree comes first: of what is given twice go-toml does not say where, and
	// it takes a time that grows with the square of the keys of a table.
	if e := d.build(); e != nil {
		return e
	}
	var all map[string]any
	err := toml.Unmarshal(d.data, &all)
	var decode *toml.DecodeError
	switch {
	case errors.As(err, &decode):
		return d.syntax(d.byteAt(decode.Position()), decode.Error()) // its column counts bytes
	case err != nil:
		return d.syntax(0, err.Error())
	default:
		return nil
	}
}

// byteAt returns the byte of a column in bytes, the end of the line where it has none so
// far, and of the file where there is no such line.
func (d *Document) byteAt(line, column int) int {
	if line < 1 || line > len(d.lines) {
		return len(d.data)
	}
	text, _, _ := bytes.Cut(d.data[d.lines[line-1]:], []byte{'\n'})
	return d.lines[line-1] + min(max(column-1, 0), len(text))
}

// Root returns the table outside all headings.
func (d *Document) Root() *Table { return d.root }

// Finish refuses the keys that nobody asked for. It gives all errors of the file
// as Errors, or nil.
func (d *Document) Finish() error {
	if d.alone != nil {
		return Errors{*d.alone}
	}
	for _, t := range d.tables {
		t.refuseUnknown()
	}
	if len(d.errs) == 0 {
		return nil
	}
	d.errs.sort()
	if d.more {
		last := d.errs[len(d.errs)-1]
		last.Field, last.Hint = "", ""
		last.Message = fmt.Sprintf("more is wrong in this file: %d errors are listed", maxErrors)
		d.errs = append(d.errs, last)
	}
	return d.errs
}

func (d *Document) errorAt(at int, field, message, hint string) *FileError {
	line, column := d.position(at)
	return &FileError{File: d.file, Line: line, Column: column, Field: field, Message: message, Hint: hint}
}

func (d *Document) report(at int, field, message, hint string) {
	if len(d.errs) == maxErrors {
		d.more = true
		return
	}
	d.errs = append(d.errs, *d.errorAt(at, field, message, hint))
}

// position returns line and column of a byte, both from 1.
func (d *Document) position(at int) (line, column int) {
	line = sort.SearchInts(d.lines, at+1)
	return line, 1 + utf8.RuneCount(d.data[d.lines[line-1]:at])
}

// lineOf returns the line of a byte.
func (d *Document) lineOf(at int) int {
	line, _ := d.position(at)
	return line
}

func lineStarts(data []byte) []int {
	starts := make([]int, 1, 1+bytes.Count(data, []byte{'\n'}))
	for at, c := range data {
		if c == '\n' {
			starts = append(starts, at+1)
		}
	}
	return starts
}

// invalidUTF8 returns the first byte that is no part of a character, or -1.
func invalidUTF8(data []byte) int {
	for at := 0; at < len(data); {
		r, size := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && size == 1 {
			return at
		}
		at += size
	}
	return -1
}
