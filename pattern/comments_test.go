package pattern_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strings"
	"testing"
)

// TestComments holds every exported name to a comment, and comments to plain Go English:
// a function returns what it returns.
func TestComments(t *testing.T) {
	names := 0
	err := eachGoFile("..", func(file string, text []byte) error {
		if strings.HasSuffix(file, "_test.go") {
			return nil
		}
		set := token.NewFileSet()
		parsed, err := parser.ParseFile(set, file, text, parser.ParseComments)
		if err != nil {
			return err
		}
		for _, c := range parsed.Comments {
			if strings.Contains(strings.ToLower(c.Text()), "reckon") {
				t.Errorf("%v: say computed, worked out or counted", set.Position(c.Pos()))
			}
		}
		for _, n := range namesOf(parsed) {
			names++
			first, rest, _ := strings.Cut(n.doc, " ")
			switch {
			case n.doc == "" && ast.IsExported(n.name):
				t.Errorf("%v: %s has no comment", set.Position(n.pos), n.name)
			case strings.EqualFold(first, n.name) && n.returns && strings.HasPrefix(rest, "gives "):
				t.Errorf("%v: %s returns what it returns", set.Position(n.pos), n.name)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if names < 3000 {
		t.Errorf("only %d names were read", names)
	}
}

// A named is something that a file declares at its top.
type named struct {
	name, doc string
	pos       token.Pos
	returns   bool // a function with results
}

// returnsFigures reports whether a function returns more than how it went: what gives
// something another name and may fail, gives.
func returnsFigures(d *ast.FuncDecl) bool {
	if d.Type.Results == nil || len(d.Type.Results.List) == 0 {
		return false
	}
	only, ok := d.Type.Results.List[0].Type.(*ast.Ident)
	return len(d.Type.Results.List) > 1 || !ok || only.Name != "error" && only.Name != "bool"
}

// namesOf lists what a file declares. A value in a group shares the group's comment, and a
// method of a type that is not exported counts as not exported itself.
func namesOf(file *ast.File) []named {
	var out []named
	for _, d := range file.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			n := named{name: d.Name.Name, doc: d.Doc.Text(), pos: d.Pos(), returns: returnsFigures(d)}
			if !ast.IsExported(strings.TrimLeft(receiver(d), "(*")) && d.Recv != nil {
				n.name = strings.ToLower(n.name[:1]) + n.name[1:]
			}
			out = append(out, n)
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					out = append(out, named{name: s.Name.Name, doc: s.Doc.Text() + d.Doc.Text(), pos: s.Pos()})
				case *ast.ValueSpec:
					out = append(out, named{name: s.Names[0].Name, doc: s.Doc.Text() + s.Comment.Text() + d.Doc.Text(), pos: s.Pos()})
				}
			}
		}
	}
	return out
}
