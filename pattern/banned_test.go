package pattern_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// bannedWords are turns of speech that nobody uses today, which no text of the program says:
// its strings, its help, its manual, the README.
var bannedWords = regexp.MustCompile(`(?i)\b(anew|reckon(ed|s|ing)?|goes by|till|parted by|wanting|still wanted|for good|whoever|out of it|of an older state|so wide|so long|as it is spoken|in the place of|for want of|nobody has looked)\b`)

func TestNoBannedWords(t *testing.T) {
	read := 0
	look := func(where, text string) {
		read++
		if word := bannedWords.FindString(text); word != "" {
			t.Errorf("%s says %q: %.120q", where, word, text)
		}
	}
	err := eachGoFile("..", func(file string, text []byte) error {
		if strings.HasSuffix(file, "_test.go") {
			return nil
		}
		set := token.NewFileSet()
		parsed, err := parser.ParseFile(set, file, text, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(parsed, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if said, err := strconv.Unquote(lit.Value); err == nil {
					look(set.Position(lit.Pos()).String(), said)
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"../README.md", "../cmd/internal/cli/commands.txt", "../tui/manual/manual.txt", "../pattern/export/sheet.html"} {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for n, line := range strings.Split(string(text), "\n") {
			look(file+":"+strconv.Itoa(n+1), line)
		}
	}
	if read < 10_000 {
		t.Errorf("only %d texts were read", read)
	}
	if bannedWords.MatchString("widened, tilled") || !bannedWords.MatchString("Plan it anew.") {
		t.Error("words are not told apart")
	}
}
