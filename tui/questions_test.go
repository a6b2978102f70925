package tui

import (
	"strings"
	"testing"
)

// What newcomers ask on their first day, and where the answer stands at 80x24: on the screen
// after so few keys, or on what one search finds.
func TestTwentyQuestions(t *testing.T) {
	for _, q := range []struct {
		question, keys, search string
		answer                 []string
	}{
		{"make a strip wider", "", "", []string{"+ wider", "w width"}},
		{"enter a split in a piece", "2 a", "", []string{"split 0-40"}},
		{"enter a split in a piece", "", "crack", []string{"add: type a piece", "edit: change the piece's line"}},
		{"why is this line red", ". . .", "", []string{"9|10 too much", "2.2 points"}},
		{"what is ? over a glue line", "?", "", []string{"? rings not checked"}},
		{"show inches", "", "", []string{"i mm/inch"}},
		{"undo", "", "", []string{"u undo"}},
		{"save", "", "", []string{"S save"}},
		{"quit", "", "", []string{"q quit"}},
		{"delete a strip", "", "", []string{"x lay aside"}},
		{"delete a strip", "", "delete", []string{"lay aside: lay the strip aside"}},
		{"get it back", "x", "", []string{"b bring back"}},
		{"what is HB 1.22 of 13.45", "", "", []string{"needs/rack dm3   HB 1.22/13.45"}},
		{"what is gap 2.2", "", "gap", []string{"how to read the bench"}},
		{"what are drawn and gone", "", "drawn", []string{"one word per thing"}},
		{"what are drawn and gone", "", "gone", []string{"one word per thing"}},
		{"print a cutting list", "", "cutting list", []string{"bench sheet: write the bench sheet", "steps: show the order of work"}},
		{"set my saw's kerf", "", "kerf", []string{"settings"}},
		{"make four of them", "4", "", []string{"+ more"}},
		{"make four of them", "", "four", []string{"more: plan one copy more"}},
		{"what can I sell at the market", "", "", []string{"3: its whole pile", "rack  pile  plan"}},
		{"what can I sell at the market", "3", "", []string{"Wanted at the demo's market", "g search", "a add"}},
		{"what can I sell at the market", "", "sell", []string{"search: search the whole rack", "add: add a want"}},
		{"what can all my wood become", "2", "", []string{"m pile"}},
		{"cut a round out", "6 a", "", []string{"round 290"}},
		{"cut a round out", "", "round", []string{"add: "}},
		{"enter a moisture reading", "", "moisture", []string{"moisture: "}},
		{"copy a strip", "", "", []string{"t twin"}},
		{"copy a strip", "", "copy", []string{"twin: put a copy"}},
		{"which wood is HB", "", "", []string{"1  hornbeam"}},
	} {
		d := onDemo(t, 80, 24).keys(q.keys)
		if q.search != "" {
			d.keys("/").text(q.search)
		}
		// What is found is to be seen without going down the list.
		s := strings.Join(strings.Split(d.screen(), "\n")[:24], "\n")
		for _, answer := range q.answer {
			if !strings.Contains(s, answer) {
				t.Errorf("%s (%s /%s): no %q on\n%s", q.question, q.keys, q.search, answer, s)
			}
		}
	}
	// The chapters that a search finds tell it.
	for word, says := range map[string]string{"gap": "is the gap between two neighbours at glue-up", "gone": "uses up (gone in JSON): timber that does not"} {
		d := onDemo(t, 80, 24).keys("/").text(word).keys("enter")
		for range 4 {
			if !strings.Contains(strings.Join(strings.Fields(d.screen()), " "), says) {
				d.keys("pgdown")
			}
		}
		if !strings.Contains(strings.Join(strings.Fields(d.screen()), " "), says) {
			t.Errorf("%s: the manual does not say %q:\n%s", word, says, d.screen())
		}
	}
}
