package remake

import (
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
)

// leastDrawn returns what a job is proved to draw at least with nothing short.
func leastDrawn(t *testing.T, job cutting.Job) float64 {
	t.Helper()
	plan, err := solve.Plan(t.Context(), job, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if plan.Short > 0 || plan.Status != cutting.Optimal {
		t.Fatalf("%d short, %v: a job as small as this is proved", plan.Short, plan.Status)
	}
	return plan.DrawnCM3
}

// near is far above what volumes are rounded by, and far below what a kerf takes.
const near = 1e-4

// checkClaim looks whether the plan of strips of a job claims no more than is so.
func checkClaim(t *testing.T, job cutting.Job, plan cutting.Plan, least float64) {
	t.Helper()
	if err := cutting.Verify(job, plan); err != nil {
		t.Fatal(err)
	}
	if plan.Status == cutting.Optimal && (plan.DrawnCM3 > least+near || plan.LowerBoundCM3 != plan.DrawnCM3) {
		t.Fatalf("optimal with %v cm3 drawn, bound %v; its pattern by itself draws %v\n%+v", plan.DrawnCM3, plan.LowerBoundCM3, least, job)
	}
	if plan.LowerBoundCM3 > least+near {
		t.Fatalf("no plan is said to draw under %v cm3; one draws %v\n%+v", plan.LowerBoundCM3, least, job)
	}
}
