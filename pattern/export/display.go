package export

import (
	"image"
	"image/color"
	"image/draw"
	"io"
	"math"
	"strings"
)

// A display is one picture of several patterns, side by side at one scale.
type display struct {
	pages      []laid
	wide, high float64
}

// A laid page has its place in a display.
type laid struct {
	page
	at point
}

// MostBeside is how many patterns may stand on one picture.
const MostBeside = 12

// inRow is how many stand side by side at most; further ones stand beneath.
const inRow = 3

// displayOf lays out the picture of a job and of those beside it.
func displayOf(j Job) (display, error) {
	all := append([]Job{j}, j.Beside...)
	letters := 0.0
	for i := range all {
		all[i].Look = j.Look
		pg, err := pageOf(all[i], 0)
		if err != nil {
			return display{}, err
		}
		letters = max(letters, pg.letters)
	}
	var s display
	for i, one := range all {
		pg, err := pageOf(one, letters)
		if err != nil {
			return s, err
		}
		at := point{0, s.high}
		if i%inRow > 0 {
			before := s.pages[i-1]
			at = point{before.at.x + before.wide, before.at.y}
		}
		s.pages = append(s.pages, laid{pg, at})
		s.wide, s.high = max(s.wide, at.x+pg.wide), max(s.high, at.y+pg.high)
	}
	return s, nil
}

// writeSVG writes every page as a drawing in the drawing.
func (s display) writeSVG(w io.Writer, across int) error {
	p := &svgPen{id: "o"}
	scale := float64(across) / s.wide
	var titles, says []string
	for _, pg := range s.pages {
		titles, says = append(titles, pg.title), append(says, pg.title+": "+pg.says)
	}
	p.put(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	p.put(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="%v" height="%v" viewBox="0 0 %v %v" role="img" aria-labelledby="%vt %vd" xml:lang="en">`+"\n",
		s.wide*scale, s.high*scale, s.wide, s.high, p.id, p.id)
	p.put(`<title id="%vt">%v</title>`+"\n"+`<desc id="%vd">%v</desc>`+"\n", p.id, escaped(strings.Join(titles, ", ")), p.id, escaped(strings.Join(says, " ")))
	p.put(`<rect width="%v" height="%v" fill="%v"/>`+"\n", s.wide, s.high, s.pages[0].ground)
	for i, pg := range s.pages {
		p.id, p.clips = "o"+string(rune('a'+i)), 0
		p.put(`<svg x="%v" y="%v" width="%v" height="%v" viewBox="0 0 %v %v">`+"\n", pg.at.x, pg.at.y, pg.wide, pg.high, pg.wide, pg.high)
		p.page(pg.page)
		p.put("</svg>\n")
	}
	p.put("</svg>\n")
	_, err := w.Write(p.b.Bytes())
	return err
}

// drawn returns the display in pixels.
func (s display) drawn(across int) image.Image {
	scale := float64(across) / s.wide
	whole := func(mm float64) int { return int(math.Round(mm * scale)) }
	img := image.NewRGBA(image.Rect(0, 0, across, max(1, int(math.Ceil(s.high*scale-1e-6)))))
	c := s.pages[0].ground
	draw.Draw(img, img.Bounds(), image.NewUniform(color.RGBA{R: c.R, G: c.G, B: c.B, A: 255}), image.Point{}, draw.Src)
	for _, pg := range s.pages {
		x0, x1 := whole(pg.at.x), whole(pg.at.x+pg.wide)
		if x1 <= x0 {
			continue
		}
		one := pg.page.drawn(x1 - x0)
		draw.Draw(img, one.Bounds().Add(image.Pt(x0, whole(pg.at.y))), one, image.Point{}, draw.Src)
	}
	return img
}
