package export

import "example.com/oddments/pattern/work"

// cares returns what is to be known, one paragraph each.
func cares(all []care) run {
	return each(all, func(c care) part {
		where := ""
		if c.Where != "" {
			where = ", " + c.Where
		}
		return el("p", class("care "+c.Class), el("b", text(c.Level+where+":")), text(" "+c.Text),
			when(c.Remedy != "", text(". "), el("i", text("A way out: "+c.Remedy))))
	})
}

// facts returns names with what they are.
func facts(all []fact) run {
	return when(len(all) > 0, el("dl", class("facts"), each(all, func(f fact) part {
		return run{el("dt", text(f.Name)), el("dd", text(f.Text))}
	})))
}

// steps returns things to do, each with what is to be known of it.
func steps(all []step) run {
	return when(len(all) > 0, el("ol", class("steps"), each(all, func(s step) part {
		return el("li", text(s.Text),
			when(s.Source != "", text(" "), source("span", "("+s.Source+")")),
			cares(s.Cares))
	})))
}

// source says where a figure or an advice comes from.
func source(in tag, from string, more ...part) part {
	return el(in, append(more, class("src"), text(from))...)
}

// figures returns the working figures of a step.
func figures(caption string, all []work.Line) run {
	return when(len(all) > 0, table("stack figures", caption, []string{"what", "figure", "where it comes from"},
		each(all, func(l work.Line) part {
			return row(text(l.What), cell(text(l.Text)), source("td", l.Source, at("role", "cell")))
		})))
}

// table returns a table with the names of its columns. The roles keep it a table where
// the style sheet lays its rows out as lines, on a phone.
func table(kind, caption string, columns []string, rows run) part {
	return el("table", at("role", "table"), class(kind),
		el("caption", text(caption)),
		el("thead", at("role", "rowgroup"), el("tr", at("role", "row"), each(columns, func(name string) part {
			return el("th", at("role", "columnheader"), at("scope", "col"), text(name))
		}))),
		el("tbody", at("role", "rowgroup"), rows))
}

// row returns a row of a table: what it is of, and its cells.
func row(of part, cells ...part) part {
	head := el("th", at("role", "rowheader"), at("scope", "row"), of)
	return el("tr", at("role", "row"), head, run(cells))
}

// cell returns a cell.
func cell(parts ...part) part { return el("td", at("role", "cell"), run(parts)) }

// numberCell returns a cell for a figure; is names it where the columns have no heads.
func numberCell(is, figure string) part {
	return el("td", at("role", "cell"), class("num"), at("data-is", is), text(figure))
}

// namedCell returns a cell for words that want their name where the columns have no heads.
func namedCell(is string, parts ...part) part {
	return el("td", at("role", "cell"), at("data-is", is), run(parts))
}

// own returns a text of the maker's, which may run from right to left.
func own(s string) part { return el("bdi", text(s)) }

// toFillIn returns names with a line to write on behind each.
func toFillIn(names ...string) part {
	return el("div", class("fill"), each(names, func(name string) part {
		return el("span", text(name+" "), el("span"))
	}))
}

// chapter returns one step of the work under its heading.
func chapter(heading string, parts ...part) part {
	return el("section", el("h2", text(heading)), run(parts))
}
