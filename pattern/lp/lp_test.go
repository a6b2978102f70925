package lp

import (
	"math"
	"testing"
)

// never lets a program go on.
func never() bool { return false }

// The worked example of the Wyndor Glass Co. (Hillier and Lieberman, Introduction to
// Operations Research, chapter 3; from memory): 3 a + 5 b is at most 36, at a = 2, b = 6,
// and the plants' hours are worth 0, 1.5 and 1.
func TestWyndor(t *testing.T) {
	p := New([]float64{4, 12, 18}, []float64{0, 0, 0})
	a := p.Add(Column{Cost: -3, At: []int32{0, 2}, By: []float64{1, 3}})
	b := p.Add(Column{Cost: -5, At: []int32{1, 2}, By: []float64{2, 2}})
	p.Solve(never)
	x := p.Amounts()
	if math.Abs(x[a]-2) > 1e-9 || math.Abs(x[b]-6) > 1e-9 {
		t.Errorf("a %v, b %v", x[a], x[b])
	}
	for row, want := range []float64{0, -1.5, -1} {
		if got := p.Price(row); math.Abs(got-want) > 1e-9 {
			t.Errorf("row %d costs %v, want %v", row, got, want)
		}
	}
	// A fourth plant with 5 hours, each a and b one: a + b <= 5.
	row := p.AddRow(5, 0)
	c := p.Add(Column{Cost: -4, At: []int32{int32(row)}, By: []float64{1}})
	p.Solve(never)
	if x := p.Amounts(); math.Abs(x[c]-5) > 1e-9 || p.Columns() != 7 {
		t.Errorf("c %v of %d columns", x[c], p.Columns())
	}
	p.SetCost(c, 1)
	p.Reprice()
	p.Solve(never)
	if x := p.Amounts(); x[c] > 1e-9 || p.Cost(c) != 1 {
		t.Errorf("c %v at a cost", x[c])
	}
}

// A program that stalls comes to its end: Beale's example (1955; from memory), whose
// least is -0.05 at x = (0.04, 0, 1, 0) of the four columns.
func TestBeale(t *testing.T) {
	p := New([]float64{0, 0, 1}, []float64{0, 0, 0})
	rows := []int32{0, 1, 2}
	for _, c := range []Column{
		{-0.75, rows, []float64{0.25, 0.5, 0}}, {150, rows, []float64{-60, -90, 0}},
		{-0.02, rows, []float64{-0.04, -0.02, 1}}, {6, rows, []float64{9, 3, 0}},
	} {
		p.Add(c)
	}
	p.Solve(never)
	sum := 0.0
	for j, x := range p.Amounts() {
		sum += p.Cost(j) * x
	}
	if math.Abs(sum+0.05) > 1e-9 {
		t.Errorf("the least is %v", sum)
	}
	before := p.Amounts()
	p.SetCost(3, 0)
	p.Reprice()
	p.Solve(func() bool { return true })
	for j, x := range p.Amounts() {
		if x != before[j] {
			t.Error("a stopped program moved")
		}
	}
}
