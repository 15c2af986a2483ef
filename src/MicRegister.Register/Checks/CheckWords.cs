namespace MicRegister.Register.Checks;

/// <summary>
/// Words for when a check was made, in one place for all who read them; written so that they can stand within a sentence.
/// </summary>
public static class CheckWords
{
    extension(CheckMoment moment)
    {
        /// <summary>When a check was made, in a word.</summary>
        public string InWords => moment switch
        {
            CheckMoment.Before => "before",
            CheckMoment.After => "after",
            CheckMoment.Other => "at another time",
            _ => throw new ArgumentOutOfRangeException(nameof(moment), moment, null),
        };

        /// <summary>When a check was made, in a sentence: "the check after the recordings".</summary>
        public string InFull => moment == CheckMoment.Other ? moment.InWords : moment.InWords + " the recordings";
    }
}
