package store

import (
	"strconv"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store/tomlread"
)

func secondKeys(s *pattern.Second) []key {
	return []key{
		wordKey("lay", &s.Lay, pattern.ParseLay).needed(`"end"`),
		barKey(&s.Bar),
		someKey("bars", &s.Bars, pattern.MaxBars),
		angleKey(&s.Angle),
		flagsKey("turned", &s.Turned),
		flagsKey("over", &s.Over),
		shiftsKey(&s.Shift),
		lengthKey("trim", &s.Trim, pattern.MaxTrim),
		readingKey("moisture", &s.Moisture),
	}
}

func barKey(at *length.Length) key {
	k := sizeKey("bar", at, pattern.MaxBar).needed(`"41 mm"`)
	k.read = func(f tomlread.Field) {
		if f.Size(at, pattern.MaxBar) && *at < pattern.MinBar {
			f.Failf("", "%s: must be %s to %s", *at, pattern.MinBar, pattern.MaxBar)
		}
	}
	return k
}

// someKey is a count of at least 1; 0 is what a file means that leaves it out.
func someKey(name string, at *int, most int) key { return countKey(name, at, 1, most, 0) }

func angleKey(at *float64) key {
	k := numberKey("angle", at, pattern.MinAngle, pattern.Square)
	k.usual = decimal(pattern.Square)
	return k
}

// flagsKey is a list that goes bar by bar.
func flagsKey(name string, at *[]bool) key {
	return barsKey(name, at, strconv.FormatBool, func(f tomlread.Field, one *bool) bool { return f.Bool(one) })
}

// shiftsKey is one of lengths and of steps that the strips make.
func shiftsKey(at *[]pattern.Shift) key {
	return barsKey("shift", at, func(s pattern.Shift) string { return quoted(s.String()) },
		func(f tomlread.Field, one *pattern.Shift) bool {
			var text string
			if f.IsText() && f.Text(&text) {
				return tomlread.Word(f, one, pattern.ParseShift)
			}
			return f.Length(&one.By, pattern.MaxShift)
		})
}

// barsKey is a list that goes bar by bar and repeats.
func barsKey[T any](name string, at *[]T, text func(T) string, read func(tomlread.Field, *T) bool) key {
	return key{name: name, usual: "[]", text: func() string { return listed(*at, text) },
		read: func(f tomlread.Field) {
			items := f.Items()
			if f.IsList() && (len(items) == 0 || len(items) > pattern.MaxBars) {
				f.Failf("it goes bar by bar and repeats", "a list of %d: must be 1 to %d entries", len(items), pattern.MaxBars)
				return
			}
			*at = nil
			for _, item := range items {
				var one T
				read(item, &one)
				*at = append(*at, one)
			}
		}}
}

// readSeconds reads the second glue-ups. What the panel does not give is no matter of the
// file: strips come and go, and the pattern must load all the same.
func readSeconds(tables []*tomlread.Table) []pattern.Second {
	if len(tables) > pattern.MaxSeconds {
		tables[pattern.MaxSeconds].Failf("", "second %d and on: a pattern has at most %d second glue-ups", pattern.MaxSeconds+1, pattern.MaxSeconds)
	}
	var all []pattern.Second
	for i, t := range tables {
		s := pattern.Second{Angle: pattern.Square}
		before := t.Wrongs()
		readKeys(t, secondKeys(&s))
		if t.Wrongs() == before {
			refuseEnd(t, s, i)
		}
		all = append(all, s)
	}
	return all
}

// refuseEnd refuses bars on end where they cannot lie so.
func refuseEnd(t *tomlread.Table, s pattern.Second, i int) {
	switch {
	case s.Lay != pattern.LayEnd:
	case i > 0:
		t.May("lay").Failf(`lay = "flat" keeps the end grain up that is up`,
			`"end" in second glue-up %d: must be "flat", rolled bars of a board would stack bars on edge`, i+1)
	case s.Mitred():
		t.May("angle").Failf(`lay = "flat" takes mitred bars`, `%s: must be 90 where bars lie on end`, decimal(s.Angle))
	}
}
