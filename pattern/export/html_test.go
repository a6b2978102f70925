package export

import (
	"bytes"
	"testing"
)

// What stands on the page is worked out by hand from HTML's rules for text and values.
func TestElements(t *testing.T) {
	const evil = `</p><script>"x" & 'y'`
	const tame = `&lt;/p&gt;&lt;script&gt;&#34;x&#34; &amp; &#39;y&#39;`
	for name, c := range map[string]struct {
		part part
		want string
	}{
		"text":                      {el("b", text(evil)), "<b>" + tame + "</b>"},
		"a value":                   {el("b", at("title", evil)), `<b title="` + tame + `"></b>`},
		"a value of a class":        {el("b", class(evil)), `<b class="` + tame + `"></b>`},
		"a text that is escaped":    {el("b", text("&lt;")), "<b>&amp;lt;</b>"},
		"nothing in it":             {el("span"), "<span></span>"},
		"what can hold nothing":     {el("use", at("href", "#r")), `<use href="#r"/>`},
		"a block ends its line":     {el("p", text("one")), "<p>one</p>\n"},
		"attributes come first":     {el("b", text("one"), class("c"), text("two"), at("id", "i")), `<b class="c" id="i">onetwo</b>`},
		"attributes of runs too":    {el("b", run{text("one"), run{class("c")}}, when(false, at("id", "i"))), `<b class="c">one</b>`},
		"drawings as they are":      {el("figure", drawing("<svg></svg>")), "<figure><svg></svg></figure>\n"},
		"each in its order":         {each([]string{"a", "<"}, func(s string) part { return text(s) }), "a&lt;"},
		"nothing at all":            {when(false, text("a")), ""},
		"a name of a thing":         {own(evil), "<bdi>" + tame + "</bdi>"},
		"a fact":                    {facts([]fact{{evil, evil}}), `<dl class="facts"><dt>` + tame + "</dt><dd>" + tame + "</dd></dl>\n"},
		"a cell under a hostile is": {namedCell(evil, text("a")), `<td role="cell" data-is="` + tame + `">a</td>`},
	} {
		var b bytes.Buffer
		c.part.write(&b)
		if b.String() != c.want {
			t.Errorf("%s: %q, want %q", name, b.String(), c.want)
		}
	}
}
