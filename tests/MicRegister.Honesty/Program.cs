using MicRegister.Honesty;

// use: MicRegister.Honesty [coverage|steps|false|reliability]...      all when none is named; about four minutes on two cores
// Invented fleets whose truth is known, with seeds of their own. Prints tables; ends with 1 where a figure misses what is asked.
bool Wanted(string name) => args.Length == 0 || args.Contains(name);
var judge = new Judge();
if (Wanted("coverage")) Coverage.Run(judge);
if (Wanted("steps")) StepPower.Run(judge);
if (Wanted("false")) FalseFindings.Run(judge);
if (Wanted("reliability")) ReliabilityOfProbability.Run(judge);
return judge.Verdict();
