package work

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"
)

// figuresTable lists every figure by its group and field with the step it stands at, what
// it is of, its name, where its rule or its default comes from, and the keys that change
// it, of shop.toml where no file is named. "common practice" has no source, "worked out"
// follows from geometry or arithmetic, "unchecked" is known without a copy that was read.
//
//go:embed figures.csv
var figuresTable string

// figures returns the line of each figure, still without its text.
var figures = sync.OnceValue(func() map[string]Line {
	rows, err := csv.NewReader(strings.NewReader(figuresTable)).ReadAll()
	if err != nil {
		panic(err) // a test reads the table
	}
	out := map[string]Line{}
	for _, r := range rows[1:] {
		out[r[0]] = Line{Figure: r[0], Step: r[1], Of: r[2], What: r[3], Source: r[4], Setting: r[5], File: r[6]}
	}
	return out
})
