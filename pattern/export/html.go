package export

import (
	"bytes"
	"html"
)

// A part is what an element holds: attributes, text, elements, drawings. Text and
// values can only be written escaped; names of elements and attributes have types of
// their own, so that no text of the maker's becomes one.
type part interface{ write(b *bytes.Buffer) }

// A tag is the name of an element.
type tag string

// An element has its attributes and what stands in it, each in its order.
type element struct {
	name       tag
	attributes []attribute
	inner      []part
}

// el returns an element. Attributes may stand anywhere among its parts.
func el(name tag, parts ...part) element {
	e := element{name: name}
	e.take(parts)
	return e
}

// take adds parts, and those of a run as if they stood there themselves.
func (e *element) take(parts []part) {
	for _, p := range parts {
		switch p := p.(type) {
		case attribute:
			e.attributes = append(e.attributes, p)
		case run:
			e.take(p)
		default:
			e.inner = append(e.inner, p)
		}
	}
}

// write writes a page that is HTML and XML at once: what can hold nothing in HTML is
// closed in its own tag, all else by one behind it. A line ends where a block does.
func (e element) write(b *bytes.Buffer) {
	b.WriteByte('<')
	b.WriteString(string(e.name))
	for _, a := range e.attributes {
		a.write(b)
	}
	if e.name.holdsNothing() {
		b.WriteString("/>")
	} else {
		b.WriteByte('>')
		for _, p := range e.inner {
			p.write(b)
		}
		b.WriteString("</" + string(e.name) + ">")
	}
	if e.name.endsLine() {
		b.WriteByte('\n')
	}
}

// holdsNothing reports whether an element has attributes only.
func (t tag) holdsNothing() bool {
	switch t {
	case "meta", "rect", "path", "use":
		return true
	default:
		return false
	}
}

// endsLine reports whether white space behind an element means nothing.
func (t tag) endsLine() bool {
	switch t {
	case "head", "meta", "title", "style", "body", "main", "header", "section", "div", "figure", "figcaption",
		"h1", "h2", "h3", "h4", "p", "dl", "ol", "li", "table", "caption", "thead", "tbody", "tr", "defs", "symbol":
		return true
	default:
		return false
	}
}

// An attributeName is the name of an attribute.
type attributeName string

// An attribute is a name with its value, not yet escaped.
type attribute struct {
	name  attributeName
	value string
}

// at returns an attribute.
func at(name attributeName, value string) attribute { return attribute{name, value} }

// class returns an element's class, by which the style sheet knows it.
func class(name string) attribute { return at("class", name) }

func (a attribute) write(b *bytes.Buffer) {
	b.WriteString(" " + string(a.name) + `="` + html.EscapeString(a.value) + `"`)
}

// A text is written as it reads, whatever stands in it.
type text string

func (t text) write(b *bytes.Buffer) { b.WriteString(html.EscapeString(string(t))) }

// A drawing is finished SVG, every text in it escaped by whoever drew it.
type drawing string

func (d drawing) write(b *bytes.Buffer) { b.WriteString(string(d)) }

// A styleSheet is CSS of our own; an element takes it as it is.
type styleSheet string

func (s styleSheet) write(b *bytes.Buffer) { b.WriteString(string(s)) }

// A run is parts one behind another; the zero value is nothing at all.
type run []part

func (r run) write(b *bytes.Buffer) {
	for _, p := range r {
		p.write(b)
	}
}

// each returns one part for each of all.
func each[T any](all []T, one func(T) part) run {
	var r run
	for _, a := range all {
		r = append(r, one(a))
	}
	return r
}

// when returns what stands only where so is true.
func when(so bool, parts ...part) run {
	if !so {
		return nil
	}
	return parts
}
