using MicRegister.Documents.Import;
using MicRegister.Register.Devices;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Campaigns;

/// <summary>What the lines of a plan mean, each cell by itself and all of them together.</summary>
internal static class StationMeaning
{
    /// <summary>Works out what each line says and what cannot be so.</summary>
    public static void Work(Register.Register register, IReadOnlyList<StationLine> lines)
    {
        foreach (var line in lines) Work(register, line);
        foreach (var twice in lines.Where(l => !l.IsOut && l.Name.Length > 0).GroupBy(l => l.Name, StringComparer.Ordinal)
            .Where(g => g.Count() > 1))
        {
            foreach (var line in twice.Where(l => l.Stored is null))
            {
                line.Wrong[(int)StationCell.Name] ??= $"There is a station {twice.Key} already; each has a name of its own.";
                line.Plan = null;
            }
        }
        // One device stands in one place; whether it does is judged by readiness, here it is only told.
        foreach (var device in lines.Where(l => !l.IsOut).SelectMany(l => l.Chain.Select(d => (Device: d, Line: l)))
            .GroupBy(x => x.Device, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            foreach (var (_, line) in device)
            {
                line.Told[(int)StationCell.Chain] = $"▲ {register.Device(device.Key)?.Name ?? device.Key} stands at "
                    + $"{string.Join(" and ", device.Select(x => x.Line.Name is { Length: > 0 } n ? n : "a line without a name"))}.";
            }
        }
    }

    private static void Work(Register.Register register, StationLine line)
    {
        Array.Clear(line.Wrong);
        Array.Clear(line.Told);
        (line.Plan, line.Chain) = (null, []);
        if (line.IsEmpty) return;
        if (line.Name.Length is 0 or > 60) Say(StationCell.Name, "A station has a name of 1 to 60 characters.");
        var latitude = Number(StationCell.Latitude, -90, 90, "°", isNeeded: true);
        var longitude = Number(StationCell.Longitude, -180, 180, "°", isNeeded: true);
        var height = Number(StationCell.Height, 0, 50, "m", isNeeded: false);
        var mount = StationCells.MountOf(Text(StationCell.Mount));
        if (mount is null)
        {
            var said = Text(StationCell.Mount) is { Length: > 0 } word ? $"'{word}' is no mount" : "The mount is missing";
            Say(StationCell.Mount, $"{said}: allowed are {string.Join(", ", StationCells.MountWords)}.");
        }
        var (chain, wrong) = ChainText.Read(register, Text(StationCell.Chain));
        if (wrong is not null) Say(StationCell.Chain, wrong);
        line.Chain = chain;
        if (line.Wrong.All(w => w is null)) line.Plan = new(line.Name, latitude!.Value, longitude!.Value, mount!.Value, height);

        string Text(StationCell cell) => line.Texts[(int)cell].Trim();

        void Say(StationCell cell, string what) => line.Wrong[(int)cell] = what;

        double? Number(StationCell cell, double least, double most, string unit, bool isNeeded)
        {
            var text = Text(cell);
            if (text.Length == 0)
            {
                if (isNeeded) Say(cell, FormattableString.Invariant($"Missing: a number from {least} to {most} {unit}."));
                return null;
            }
            if (MeasuredText.TryRead(text, out var value, out var said) && (said is null || said == unit)
                && value >= least && value <= most)
                return value;
            Say(cell, FormattableString.Invariant($"'{text}': allowed is a number from {least} to {most} {unit}."));
            return null;
        }
    }
}
