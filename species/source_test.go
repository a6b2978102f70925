package species

import (
	"strings"
	"testing"
)

func TestParseSource(t *testing.T) {
	for text, want := range map[string]Source{
		"Table 13-5 (verified)":            {"Table 13-5", Verified},
		"Table (2010) (derived)":           {"Table (2010)", Derived},
		"list (reprint)":                   {"list (reprint)", Yours}, // no known word
		"my own test":                      {"my own test", Yours},
		"my own test (yours)":              {"my own test", Yours},
		"nothing found (none)":             {"nothing found", None},
		"  visual estimate   (memory)  ":   {"visual estimate", Memory},
		"(memory)":                         {"", Memory},
		"":                                 {"", Yours},
		")":                                {")", Yours},
		"says verified)":                   {"says verified)", Yours},
		"read it (Verified)":               {"read it (Verified)", Yours},
		"read it (verified) and then some": {"read it (verified) and then some", Yours},
	} {
		if got := ParseSource(text); got != want {
			t.Errorf("%q: %+v, want %+v", text, got, want)
		}
	}
}

func FuzzParseSource(f *testing.F) {
	for _, seed := range []string{"a (verified)", "(", "b (x) (none)", ") (memory)", "(yours) (yours)"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		once := ParseSource(text)
		if once.Status == 0 {
			t.Errorf("%q has no standing", text)
		}
		if again := ParseSource(once.String()); again != once {
			t.Errorf("%q: %+v, read again %+v", text, once, again)
		}
	})
}

func TestStatus(t *testing.T) {
	for _, s := range Statuses() {
		if got, err := ParseStatus(s.String()); err != nil || got != s {
			t.Errorf("%v: %v, %v", s, got, err)
		}
	}
	for i := 1; i < len(Statuses()); i++ {
		if Statuses()[i-1] >= Statuses()[i] {
			t.Errorf("%v does not come before %v", Statuses()[i-1], Statuses()[i])
		}
	}
	if _, err := ParseStatus("certain"); err == nil {
		t.Error("certain is read as a standing")
	}
	var none Status
	if none.String() != "status(0)" || (Source{}).String() != "" {
		t.Errorf("the zero standing is %v, the zero source %q", none, Source{})
	}
}

// A maker is told of a standing in plain words, which the legend explains.
func TestToldStandings(t *testing.T) {
	for _, s := range Statuses() {
		if !strings.Contains(Legend, s.Told()+":") {
			t.Errorf("the legend lacks %q", s.Told())
		}
	}
	if got := ParseSource("a chart (memory)").Told(); got != "a chart (unchecked)" {
		t.Errorf("told as %q", got)
	}
	if got := (Source{}).Told(); got != "" {
		t.Errorf("no source is told as %q", got)
	}
}
