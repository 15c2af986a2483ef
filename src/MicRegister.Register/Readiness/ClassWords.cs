using MicRegister.Metrology.Classes;
using MicRegister.Register.Calibration;

namespace MicRegister.Register.Readiness;

/// <summary>What people read of verdicts on classes.</summary>
public static class ClassWords
{
    extension(ClassAnswer answer)
    {
        public string InWords => answer switch
        {
            ClassAnswer.Meets => "meets",
            ClassAnswer.Misses => "misses",
            _ => "undecided for",
        };
    }

    extension(ClassLimitVerdict verdict)
    {
        public string InWords => verdict switch
        {
            ClassLimitVerdict.Conforms => "keeps its class",
            ClassLimitVerdict.Exceeds => "does not keep its class",
            ClassLimitVerdict.NotShown => "not shown to keep its class",
            _ => "not judged",
        };
    }
}
