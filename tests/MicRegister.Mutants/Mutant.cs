namespace MicRegister.Mutants;

/// <summary>One small change of the source.</summary>
/// <param name="File">Path in the copy.</param>
/// <param name="Line">Line before any change, from 1.</param>
/// <param name="Start">Where the changed text starts.</param>
/// <param name="Length">How long it is.</param>
/// <param name="Form">How change and original are told apart while the program runs.</param>
/// <param name="Mutated">What stands there when the change is on; nothing where the form says it all.</param>
/// <param name="Change">The change in words: from → to.</param>
/// <param name="Constant">Where the word const stands that has to give way to a field; null elsewhere.</param>
internal sealed record Mutant(string File, int Line, int Start, int Length, Form Form, string Mutated, string Change, int? Constant = null)
{
    /// <summary>Number by which it is switched on, from 1.</summary>
    public int Number { get; init; }

    /// <summary>Where it is and what it does, as lists of survivors name it.</summary>
    public string In(string tree) => $"{Path.GetRelativePath(tree, File)}:{Line} {Change}";
}

/// <summary>How a change is woven in.</summary>
internal enum Form
{
    /// <summary>Either expression, by the switch.</summary>
    Instead,

    /// <summary>A truth turned over.</summary>
    Negated,

    /// <summary>A statement left out.</summary>
    LeftOut,

    /// <summary>A condition that never holds.</summary>
    Never,
}

/// <summary>What became of a change.</summary>
internal enum Verdict
{
    Killed,
    TimedOut,
    Survived,

    /// <summary>No test comes by it.</summary>
    Unreached,
}
