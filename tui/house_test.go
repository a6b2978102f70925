package tui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The budgets of the screens. The root routes, keeps the document and draws the frame about
// the screens; what else it would hold belongs to a screen.
const (
	mostFields      = 20
	mostFileLines   = 500
	mostRootLines   = 2000
	mostRootMethods = 105
)

// Structs and files stay small, and the root does.
func TestBudgets(t *testing.T) {
	structs, rootLines, methods := 0, 0, 0
	err := filepath.WalkDir(".", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		lines := strings.Count(string(text), "\n")
		if lines > mostFileLines {
			t.Errorf("%s has %d lines", file, lines)
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), file, text, 0)
		if err != nil {
			return err
		}
		root := filepath.Dir(file) == "."
		if root {
			rootLines += lines
		}
		ast.Inspect(parsed, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if root && n.Recv != nil && ofApp(n.Recv.List[0].Type) {
					methods++
				}
			case *ast.TypeSpec:
				if s, ok := n.Type.(*ast.StructType); ok {
					structs++
					if fields := fieldsOf(s); fields > mostFields {
						t.Errorf("%s: %s has %d fields", file, n.Name, fields)
					}
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if structs < 50 {
		t.Errorf("%d structs were read", structs)
	}
	if rootLines > mostRootLines || methods > mostRootMethods {
		t.Errorf("the root has %d lines and App %d methods", rootLines, methods)
	}
	t.Logf("%d lines in the root, %d methods of App, %d structs", rootLines, methods, structs)
}

func ofApp(e ast.Expr) bool {
	if star, ok := e.(*ast.StarExpr); ok {
		e = star.X
	}
	name, ok := e.(*ast.Ident)
	return ok && name.Name == "App"
}

// fieldsOf counts the fields of a struct; what is embedded is one.
func fieldsOf(s *ast.StructType) int {
	n := 0
	for _, f := range s.Fields.List {
		n += max(1, len(f.Names))
	}
	return n
}
