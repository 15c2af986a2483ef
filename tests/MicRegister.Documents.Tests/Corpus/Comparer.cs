namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What became of a file.</summary>
internal enum Fate
{
    /// <summary>All that is certain was taken over, and what is not was asked.</summary>
    Whole,

    /// <summary>Something is not taken over, and a person is asked.</summary>
    Asked,

    /// <summary>Something is not taken over, and nobody is asked.</summary>
    Lost,

    /// <summary>Something would be stored that the file does not say.</summary>
    Wrong,
}

/// <summary>How what was taken over of a file stands to what it says.</summary>
/// <param name="Certain">Devices and results that must be taken over.</param>
/// <param name="Lacking">Those of them that are not.</param>
internal sealed record Verdict(IReadOnlyList<string> Wrong, IReadOnlyList<string> Missing, int Questions, int Certain, int Lacking)
{
    public Fate Fate => Wrong.Count > 0 ? Fate.Wrong : Missing.Count == 0 ? Fate.Whole : Questions > 0 ? Fate.Asked : Fate.Lost;
}

/// <summary>Holds what facts say of devices against the truth.</summary>
internal static class Comparer
{
    /// <summary>Values may differ by what a change of the unit leaves, in dB or as a part of one.</summary>
    private const double Tolerance = 1e-6;

    public static Verdict Compare(Truth truth, IReadOnlyList<TakenDevice> taken, IReadOnlyList<string> questions,
        IReadOnlyList<string> notices)
    {
        var (wrong, missing, lacking) = (new List<string>(), new List<string>(), 0);
        var left = truth.Devices.ToList();
        var isOpen = truth.NeedsPerson;
        foreach (var device in taken)
        {
            if (left.Where(d => IsSame(d, device)).MaxBy(d => Nearness(d, device)) is not { } match)
            {
                wrong.Add($"device {device.Name}: there is no such one");
                continue;
            }
            left.Remove(match);
            Fields(match.Fields, device.Fields, match.Instrument.Serial, wrong, missing);
            lacking += Results(match, device, wrong, missing, ref isOpen);
        }
        foreach (var device in left)
        {
            if (device.IsDoubtful) isOpen = true;
            else missing.Add($"device {device.Instrument.Serial}");
            if (!device.IsDoubtful) lacking += 1 + device.Results.Values.Count(r => r is { IsStated: true, IsDoubtful: false });
        }
        // Whatever only a person can settle, a person must hear of.
        if (isOpen && questions.Count == 0 && !notices
            .Any(n => truth.DoubtfulSheets.Any(s => n.Contains(s, StringComparison.Ordinal)))) missing.Add("a question");
        return new(wrong, missing, questions.Count, truth.Certain, lacking);
    }

    private static bool IsSame(TrueDevice device, TakenDevice taken) =>
        device.Fields.TryGetValue(Said.Serial, out var serial) && taken.Fields.TryGetValue(Said.Serial, out var taken1)
            ? serial == taken1
            : device.Fields.TryGetValue(Said.Code, out var code) && taken.Fields.TryGetValue(Said.Code, out var taken2) && code == taken2;

    // A microphone and a preamplifier may have one number.
    private static int Nearness(TrueDevice device, TakenDevice taken)
    {
        return (Agrees(Said.Kind) ? 4 : 0) + (Agrees(Said.Model) ? 3 : 0) + (Agrees(Said.Code) ? 2 : 0) + (device.IsDoubtful ? 0 : 1);

        bool Agrees(Said what) => device.Fields.TryGetValue(what, out var a) && taken.Fields.TryGetValue(what, out var b) && a == b;
    }

    private static int Results(TrueDevice device, TakenDevice taken, List<string> wrong, List<string> missing, ref bool isOpen)
    {
        var serial = device.Instrument.Serial;
        var left = device.Results.Values.Where(r => r.IsStated).ToList();
        foreach (var result in taken.Results)
        {
            var name = $"{serial} {result.Quantity} {result.Day}";
            if (!result.Fields.TryGetValue(Said.Value, out var value))
            {
                // A certificate without a value says its day alone.
                if (!device.Results.Values.Any(r => IsOn(r, result))) wrong.Add($"{name}: the file says nothing of that day");
                continue;
            }
            if (left.Where(r => IsOn(r, result)).OrderByDescending(r => AreEqual(Said.Value, AsTaken(r, value)[Said.Value], value))
                .FirstOrDefault() is not { } match)
            {
                wrong.Add($"{name} {value}: there is no such result");
                continue;
            }
            left.Remove(match);
            if (result.Quantity != device.Instrument.Quantity) wrong.Add($"{name}: it is a {device.Instrument.Quantity}");
            if (match.Fields.ContainsKey(Said.Year) && !match.Fields.ContainsKey(Said.Day)
                && !result.IsOfYear) wrong.Add($"{name}: only the year is known");
            Fields(AsTaken(match, value), result.Fields, name, wrong, missing);
        }
        foreach (var result in left)
        {
            if (result.IsDoubtful || device.IsDoubtful) isOpen = true;
            else missing.Add($"{serial} result of {result.Of.Day:O}");
        }
        return device.IsDoubtful ? 0 : left.Count(r => !r.IsDoubtful);
    }

    // Of a value in two units, rounded in each, either may be stored.
    private static Dictionary<Said, Stated> AsTaken(TrueResult result, Stated taken) =>
        result.Again is { } again && AreEqual(Said.Value, again, taken)
            ? new(result.Fields) { [Said.Value] = again } : result.Fields;

    private static bool IsOn(TrueResult result, TakenResult taken) =>
        result.Fields.TryGetValue(Said.Day, out var day)
            ? day == Stated.Anything || day.Text == taken.Day
            : result.Fields.TryGetValue(Said.Year, out var year) && taken.Day.StartsWith(year.Text!, StringComparison.Ordinal);

    private static void Fields(
        Dictionary<Said, Stated> truth, IReadOnlyDictionary<Said, Stated> taken, string name, List<string> wrong,
            List<string> missing)
    {
        foreach (var (what, value) in taken)
        {
            if (!truth.TryGetValue(what, out var said))
            {
                // The k of a header says nothing where no U stands below it.
                if (!IsHarmless(what, value) && !(what == Said.Day && truth.ContainsKey(Said.Year))
                    && !(what == Said.K && !taken.ContainsKey(Said.U)))
                    wrong.Add($"{name}: {what} {value}, of which the file says nothing");
            }
            else if (said != Stated.Anything && !AreEqual(what, said, value))
            {
                (IsLess(what, value) ? missing : wrong).Add($"{name}: {what} {value} instead of {said}");
            }
        }
        missing.AddRange(truth.Where(t => !taken.ContainsKey(t.Key) && t.Value != Stated.Anything && !IsImplied(t.Key, t.Value))
            .Select(t => $"{name}: {t.Key} {t.Value}"));
    }

    // A kind that the file does not say must be stored somehow; of a device in service nothing need be said.
    private static bool IsHarmless(Said what, Stated value) => what == Said.Kind || (what == Said.Status && value.Text == "InService");

    private static bool IsLess(Said what, Stated value) => what == Said.Kind && value.Text == "general";

    private static bool IsImplied(Said what, Stated value) => what == Said.Year || (what == Said.Status && value.Text == "InService");

    private static bool AreEqual(Said what, Stated a, Stated b) =>
        a.Number is { } x && b.Number is { } y
            ? what == Said.Value ? Math.Abs(Level(a) - Level(b)) < Tolerance : a.Unit == b.Unit
                && Math.Abs(x - y) <= Tolerance * Math.Abs(x)
            : a.Text == b.Text;

    // dB re 1 V/Pa of what is stated in V/Pa or mV/Pa.
    private static double Level(Stated value) => value.Unit switch
    {
        "mV/Pa" => 20 * Math.Log10(value.Number!.Value / 1000),
        "V/Pa" => 20 * Math.Log10(value.Number!.Value),
        _ => value.Number!.Value,
    };
}
