package pattern_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/pattern/outline"
)

// Nothing asks which shape a product has: what depends on it is asked of the shape. So
// no file but a shape's own compares with one, or takes a shape's type apart.
func TestNobodyAsksForTheShape(t *testing.T) {
	files, own, uses := shapeFiles(t)
	if len(own) != len(outline.Shapes()) || uses == 0 {
		t.Fatalf("%d files of %d shapes, named %d times elsewhere: the test looks for something else", len(own), len(outline.Shapes()), uses)
	}
	for path, file := range files {
		if own[path] {
			continue
		}
		for _, at := range shapeQuestions(file) {
			t.Errorf("%s asks for the shape: %s", path, at)
		}
	}
}

// The test finds what it looks for.
func TestShapeQuestionsAreSeen(t *testing.T) {
	for _, code := range []string{
		"_ = p.Shape == outline.Round", "_ = outline.Block != s", "_ = s == Block", `_ = string(p.Shape) == "kite"`, `if "round" == name {}`,
		"switch p.Shape {}", "switch s { case outline.Rectangle: }", "_, _ = s.(round)", "switch s.(type) { case block: }",
		"_ = map[pattern.ShapeName]int{outline.Round: 1}[p.Shape]",
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "", "package p; func f() { "+code+" }", 0)
		if err != nil {
			t.Fatal(err)
		}
		if len(shapeQuestions(file)) == 0 {
			t.Errorf("%s passes", code)
		}
	}
}

// shapeFiles parses the code without its tests, and says which files are a shape's own
// and how often the others name a shape.
func shapeFiles(t *testing.T) (files map[string]*ast.File, own map[string]bool, uses int) {
	t.Helper()
	files, own = map[string]*ast.File{}, map[string]bool{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testdata") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		files[path] = file
		name := strings.TrimSuffix(filepath.Base(path), ".go")
		if _, err := outline.ShapeNamed(name); err == nil && filepath.Base(filepath.Dir(path)) == "outline" {
			own[path] = true
			return nil
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if e, ok := n.(ast.Expr); ok && namesShape(e) {
				uses++
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files, own, uses
}

// shapeQuestions lists where a file asks for the shape of something.
func shapeQuestions(file *ast.File) []string {
	var out []string
	found := func(n ast.Node, what string) {
		out = append(out, fmt.Sprintf("%s at byte %d", what, n.Pos()))
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BinaryExpr:
			if n.Op != token.ADD && (namesShape(n.X) || namesShape(n.Y)) {
				found(n, "a comparison")
			}
		case *ast.SwitchStmt:
			if n.Tag != nil && namesShape(n.Tag) {
				found(n, "a switch")
			}
		case *ast.CaseClause:
			for _, e := range n.List {
				if namesShape(e) || isShapeType(e) {
					found(n, "a case")
				}
			}
		case *ast.TypeAssertExpr:
			if n.Type != nil && isShapeType(n.Type) {
				found(n, "a type assertion")
			}
		case *ast.IndexExpr:
			if namesShape(n.Index) {
				found(n, "an index")
			}
		}
		return true
	})
	return out
}

// namesShape reports whether e is a product's shape, or the name of one.
func namesShape(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident: // within package outline
		return strings.ToUpper(e.Name[:1]) == e.Name[:1] && isShapeName(strings.ToLower(e.Name))
	case *ast.SelectorExpr:
		return e.Sel.Name == "Shape" && !isPackage(e.X) || isPackage(e.X) && isShapeName(strings.ToLower(e.Sel.Name))
	case *ast.BasicLit:
		return e.Kind == token.STRING && isShapeName(strings.Trim(e.Value, "`\""))
	case *ast.CallExpr: // string(p.Shape)
		return len(e.Args) == 1 && namesShape(e.Args[0]) && isString(e.Fun)
	case *ast.ParenExpr:
		return namesShape(e.X)
	default:
		return false
	}
}

func isPackage(e ast.Expr) bool {
	id, ok := e.(*ast.Ident)
	return ok && id.Name == "outline"
}

func isString(e ast.Expr) bool {
	id, ok := e.(*ast.Ident)
	return ok && id.Name == "string"
}

func isShapeName(s string) bool {
	_, err := outline.ShapeNamed(s)
	return err == nil
}

// isShapeType reports whether e is the type of one shape.
func isShapeType(e ast.Expr) bool {
	id, ok := e.(*ast.Ident)
	return ok && isShapeName(id.Name)
}
