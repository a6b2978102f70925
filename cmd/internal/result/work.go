package result

import (
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

// Work returns the JSON of the working figures of a job, with what a board of a wanted size
// needs. What is not known is null.
func Work(stem string, job work.Job, f work.Figures, needs any) Object {
	products := []Object{}
	for i, made := range job.Makes() {
		p, shape := f.Products[i], outline.ShapeOf(made)
		products = append(products, Object{
			{"product", p.Product}, {"template_mm", Sizes(shape.Resized(p.Template.Along, p.Template.Across))}, {"passes", p.Passes},
			{"path_m", p.PathM}, {"bevel_face_mm", p.BevelFaceMM}, {"edge_left_mm", p.EdgeLeft},
			{"stands_on_mm", Sizes(shape.Resized(p.Stands.Along, p.Stands.Across))},
			{"removed_cm3", p.RemovedCM3}, {"weight_kg", p.WeightKg}, {"finish_m2", p.FinishM2},
		})
	}
	return Object{
		{"format", "oddments/work 1"}, {"pattern", stem}, {"copies", job.Copies},
		{"glue", Object{{"area_m2", f.Glue.AreaM2}, {"grams", f.Glue.Grams}, {"minutes", f.Glue.Minutes},
			{"stages", f.Glue.Stages}, {"clamps", f.Glue.Clamps}}},
		{"products", products},
		{"finish", Object{{"oil_ml", f.Finish.OilMl}, {"wax_g", f.Finish.WaxG}, {"oil_g", f.Finish.OilG}, {"evenings", f.Finish.Evenings}}},
		{"price", Object{{"materials", f.Price.Materials}, {"labour", f.Price.Labour}, {"each", f.Price.Each}, {"break_even", f.Price.BreakEven}}},
		{"second", SecondWork(f.Second)}, {"needs", needs},
	}
}
