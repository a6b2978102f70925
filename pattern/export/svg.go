package export

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"example.com/oddments/pattern/tell"
)

// An svgPen writes the ops of a page as elements.
type svgPen struct {
	b     bytes.Buffer
	id    string // before every id, so that two drawings can stand in one page
	clips int
}

// put writes a format; numbers in it have at most two decimals.
func (p *svgPen) put(format string, args ...any) {
	for i, arg := range args {
		if x, ok := arg.(float64); ok {
			args[i] = number(x)
		}
	}
	fmt.Fprintf(&p.b, format, args...)
}

// writeSVG writes the picture of a job.
func writeSVG(w io.Writer, j Job) error {
	s, err := displayOf(j)
	if err != nil {
		return err
	}
	if len(s.pages) > 1 {
		return s.writeSVG(w, j.Look.width())
	}
	pg := s.pages[0].page
	p := &svgPen{id: "o"}
	scale := float64(j.Look.width()) / pg.wide
	p.put(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	p.put(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="%v" height="%v" viewBox="0 0 %v %v" role="img" aria-labelledby="%vt %vd" xml:lang="en">`+"\n",
		pg.wide*scale, pg.high*scale, pg.wide, pg.high, p.id, p.id)
	p.put(`<title id="%vt">%v</title>`+"\n"+`<desc id="%vd">%v</desc>`+"\n", p.id, escaped(pg.title), p.id, escaped(pg.says))
	p.page(pg)
	p.put("</svg>\n")
	_, err = w.Write(p.b.Bytes())
	return err
}

// page writes the paper, the wood once, and all that is drawn.
func (p *svgPen) page(pg page) {
	p.put(`<rect width="%v" height="%v" fill="%v"/>`+"\n", pg.wide, pg.high, pg.ground)
	if len(pg.wood.planks) > 0 {
		p.put("<defs>\n")
		p.wood(pg.wood)
		p.put(`<linearGradient id="%vlit" x1="0" y1="0" x2="1" y2="1"><stop offset="0" stop-color="#fff" stop-opacity=".3"/><stop offset=".5" stop-color="#fff" stop-opacity="0"/><stop offset=".5" stop-color="#000" stop-opacity="0"/><stop offset="1" stop-color="#000" stop-opacity=".3"/></linearGradient>`+"\n", p.id)
		p.put("</defs>\n")
	}
	p.put(`<g font-family="Helvetica, Arial, 'DejaVu Sans', sans-serif">` + "\n")
	for _, o := range pg.ops {
		o.svg(p)
	}
	p.put("</g>\n")
}

// wood writes the panel once, for every part of it to be shown from.
func (p *svgPen) wood(w wood) {
	p.put(`<g id="%vwood">`+"\n", p.id)
	p.put(`<g shape-rendering="crispEdges">` + "\n")
	for _, k := range w.planks {
		p.put(`<rect x="%v" y="%v" width="%v" height="%v" fill="%v"/>`+"\n",
			k.x0, k.y0, k.x1-k.x0, k.y1-k.y0, k.shades[shadeBase])
	}
	p.put("</g>\n")
	p.put(`<g fill="none">` + "\n")
	for i, k := range w.planks {
		p.veins(k)
		if k.seam {
			before := w.planks[i-1]
			if from, to := max(before.x0, k.x0), min(before.x1, k.x1); to > from {
				p.put(`<path d="M%v %vH%v" stroke="%v" stroke-width=".25"/>`+"\n", from, k.y0, to, k.shades[shadeSeam])
			}
		}
	}
	p.put("</g>\n</g>\n")
}

// veins writes the grain of one plank, the lines of one look as one path.
func (p *svgPen) veins(k plank) {
	type look struct {
		shade int
		wide  float64
	}
	var paths tell.Groups[look, string]
	for _, v := range k.veins {
		path := "M" + tenth(v.from.x) + " " + tenth(v.from.y)
		for _, c := range v.curves {
			path += fmt.Sprintf("Q%s %s %s %s", tenth(c.by.x), tenth(c.by.y), tenth(c.to.x), tenth(c.to.y))
		}
		paths.Add(look{v.shade, v.wide}, path)
	}
	for of, all := range paths.All() {
		p.put(`<path d="%v" stroke="%v" stroke-width="%v"/>`+"\n", strings.Join(all, ""), k.shades[of.shade], of.wide)
	}
}

func (o woodOp) svg(p *svgPen) {
	p.clips++
	a := o.in
	p.put(`<clipPath id="%vc%d">`, p.id, p.clips)
	a.form.svgClip(p, a)
	p.put(`</clipPath><g transform="translate(%v %v)"><g clip-path="url(#%vc%d)"><use xlink:href="#%vwood"/></g></g>`+"\n",
		o.at.x, o.at.y, p.id, p.clips, p.id)
}

func path(points []point, closed bool) string {
	var b strings.Builder
	for i, at := range points {
		b.WriteString(map[bool]string{true: "M", false: "L"}[i == 0])
		b.WriteString(number(at.x) + " " + number(at.y))
	}
	if closed {
		b.WriteByte('Z')
	}
	return b.String()
}

func (o fillOp) svg(p *svgPen) {
	p.put(`<path d="%v" fill="%v"/>`+"\n", path(o.points, true), o.colour)
}

func (o strokeOp) svg(p *svgPen) {
	dash := ""
	if o.dashed {
		dash = fmt.Sprintf(` stroke-dasharray="%s %s"`, number(dashOf(o.wide)), number(dashOf(o.wide)*0.7))
	}
	p.put(`<path d="%v" fill="none" stroke="%v" stroke-width="%v"%v/>`+"\n", path(o.points, o.closed), o.colour, o.wide, dash)
}

func (o hatchOp) svg(p *svgPen) {
	p.put(`<path d="%v" fill="#fff"/><path d="%v" fill="none" stroke="%v" stroke-width="%v"/>`+"\n", path(o.box, true), o.lines(), faint, o.size/16)
}

// lines returns the slanted lines of a rectangle as one path.
func (o hatchOp) lines() string {
	a, b := o.box[0], o.box[2]
	wide, high := b.x-a.x, b.y-a.y
	step := max(0.8*o.size, (wide+high)/200)
	var s strings.Builder
	for d := step / 2; d < wide+high; d += step {
		// The line where x - a.x + y - a.y is d.
		from, to := point{a.x + min(d, wide), a.y + max(0, d-wide)}, point{a.x + max(0, d-high), a.y + min(d, high)}
		s.WriteString(path([]point{from, to}, false))
	}
	return s.String()
}

// dashOf returns the length of a dash of a line so wide.
func dashOf(wide float64) float64 { return 9 * wide }

func (o discOp) svg(p *svgPen) {
	fill := ` fill-opacity=".27"`
	if !o.shade {
		fill = fmt.Sprintf(` fill="%v"`, o.colour)
	}
	p.put(`<circle cx="%v" cy="%v" r="%v"%v/>`+"\n", o.centre.x, o.centre.y, o.r, fill)
}

func (o bevelOp) svg(p *svgPen) { o.of.form.svgBevel(p, o.of, o.deep) }

func (o textOp) svg(p *svgPen) {
	how := ""
	switch {
	case o.middle:
		how = ` text-anchor="middle"`
	case o.end:
		how = ` text-anchor="end"`
	}
	if o.bold {
		how += ` font-weight="bold"`
	}
	p.put(`<text x="%v" y="%v" font-size="%v" fill="%v"%v>%v</text>`+"\n",
		o.at.x, o.at.y, o.size, o.colour, how, escaped(o.text))
}
