namespace MicRegister.Server.Pages.Parts;

/// <summary>Hands on to a component of the library whatever else a part was given.</summary>
internal static class Passed
{
    /// <summary>The same in the library's form; empty where nothing was given.</summary>
    /// <param name="given">What a part captured.</param>
    /// <param name="own">What the part itself adds; what was given goes before it.</param>
    public static Dictionary<string, object?> On(Dictionary<string, object>? given, params IEnumerable<(string Name, object? Value)> own)
    {
        var all = own.ToDictionary(o => o.Name, o => o.Value);
        foreach (var (name, value) in given ?? []) all[name] = value;
        return all;
    }
}
