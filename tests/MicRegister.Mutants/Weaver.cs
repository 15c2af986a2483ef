using System.Text;

namespace MicRegister.Mutants;

/// <summary>Writes changes into a text, so that each can be switched on while the program runs and all others stay off.</summary>
internal static class Weaver
{
    public static string Woven(string text, IReadOnlyList<Mutant> mutants)
    {
        // Outer ones before inner ones; those of the same stretch go around one another.
        List<Mutant> sorted = [.. mutants.OrderBy(m => m.Start).ThenByDescending(m => m.Length).ThenBy(m => m.Number)];
        return Woven(text, sorted, 0, text.Length, [.. mutants.Select(m => m.Constant).OfType<int>()]);
    }

    private static string Woven(string text, List<Mutant> sorted, int start, int end, HashSet<int> constants)
    {
        var woven = new StringBuilder();
        for (var i = 0; i < sorted.Count;)
        {
            var outer = sorted[i];
            var to = outer.Start + outer.Length;
            var inner = sorted.Skip(i + 1).TakeWhile(m => m.Start < to).ToList();
            Plain(text, start, outer.Start, constants, woven);
            var original = Woven(text, inner, outer.Start, to, constants);
            var on = $"global::MicRegister.Mutants.Mutant.Is({outer.Number})";
            woven.Append(outer.Form switch
            {
                Form.Instead => $"({on} ? {outer.Mutated} : ({original}))",
                Form.Negated => $"(({original}) ^ {on})",
                Form.LeftOut => $"{{ if (!{on}) {{ {original} }} }}", // an else after it stays with its own if
                _ => $"(!{on} && ({original}))",
            });
            start = to;
            i += 1 + inner.Count;
        }
        Plain(text, start, end, constants, woven);
        return woven.ToString();
    }

    private static void Plain(string text, int start, int end, HashSet<int> constants, StringBuilder woven)
    {
        foreach (var at in constants.Where(c => c >= start && c < end).Order())
        {
            woven.Append(text, start, at - start).Append("static readonly");
            start = at + "const".Length;
        }
        woven.Append(text, start, end - start);
    }
}
