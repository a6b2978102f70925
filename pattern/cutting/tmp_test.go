package cutting
import ("testing";"fmt";"example.com/oddments/pattern/length")
func TestTmp(t *testing.T){
 job:=cherryJob(); p:=planned(t,job)
 for _,s:=range Steps(job,p,length.InMM){fmt.Println(s)}
 for _,s:=range Chalk(job,p)[:3]{fmt.Println(s)}
 job,p=mixedJob()
 for _,s:=range Steps(job,p,length.InMM){fmt.Println(s)}
 fmt.Println(Notes(job,p,length.InMM))
 job=benchJob(5); p=planned(t,job)
 for _,s:=range Steps(job,p,length.InInches){fmt.Println(s)}
}
