package store

import (
	"bytes"
	"embed"
	"path"

	"example.com/oddments/pattern/orders"
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
	ShopFile ShopFile // that says it
	Rack     rack.Rack
	Patterns []Saved // the first is the one to open; their File is empty
	Orders   []orders.Want
}

// ReadDemo reads the built-in demo by the same readers as any file, so each call
// gives one of its own.
func ReadDemo() (Demo, error) {
	known := species.Builtin()
	stock, err := demoFile(rackFile, knowing(known, ReadRack))
	if err != nil {
		return Demo{}, err
	}
	d := Demo{Rack: stock}
	if d.ShopFile, err = demoFile(shopFile, ReadShopFile); err != nil {
		return Demo{}, err
	}
	d.Shop = d.ShopFile.Shop()
	if d.Orders, err = demoFile(ordersFile, Against{Known: known, Shop: &d.Shop, Rack: &d.Rack}.read); err != nil {
		return Demo{}, err
	}
	for _, stem := range demoPatterns() {
		p, err := demoFile(stem+tomlEnding, knowing(known, ReadPattern))
		if err != nil {
			return Demo{}, err
		}
		d.Patterns = append(d.Patterns, Saved{Stem: stem, Pattern: p})
	}
	return d, nil
}

func demoFile[T any](name string, read reads[T]) (v T, err error) {
	data, err := demoFiles.ReadFile(path.Join("demo", name))
	if err != nil {
		return v, err
	}
	return read(bytes.NewReader(data), "demo/"+name)
}
