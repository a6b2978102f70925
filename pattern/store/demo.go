package store

import (
	"embed"
	"path"
	"strings"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/species"
)

// The demo: the Gorsebank autumn market, which is invented.
//
//go:embed demo
var demoFiles embed.FS

// demoPatterns lists the demo's patterns in the order they are shown.
func demoPatterns() []string { return []string{"rookery-square", "saltings-round", "candle-sill"} }

// A Demo is a workshop to try things in.
type Demo struct {
	Shop     shop.Shop
	Rack     rack.Rack
	Patterns []Saved // the first is the one to open; their File is empty
}

// ReadDemo reads the built-in demo by the same readers as any file, so each call
// gives one of its own.
func ReadDemo() (Demo, error) {
	var d Demo
	known := Known(species.Builtin())
	if err := readDemoFile(shopFile, func(name string, text *strings.Reader) (err error) {
		d.Shop, err = ReadShop(text, name)
		return err
	}); err != nil {
		return Demo{}, err
	}
	if err := readDemoFile(rackFile, func(name string, text *strings.Reader) (err error) {
		d.Rack, err = ReadRack(text, name, known)
		return err
	}); err != nil {
		return Demo{}, err
	}
	for _, stem := range demoPatterns() {
		saved := Saved{Stem: stem}
		if err := readDemoFile(stem+tomlEnding, func(name string, text *strings.Reader) (err error) {
			saved.Pattern, err = ReadPattern(text, name, known)
			return err
		}); err != nil {
			return Demo{}, err
		}
		d.Patterns = append(d.Patterns, saved)
	}
	return d, nil
}

func readDemoFile(name string, read func(string, *strings.Reader) error) error {
	data, err := demoFiles.ReadFile(path.Join("demo", name))
	if err != nil {
		return err
	}
	return read("demo/"+name, strings.NewReader(string(data)))
}
