using System.Globalization;
using MicRegister.Documents.Drawings;
using MicRegister.Documents.Exports;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;

namespace MicRegister.Server.Work;

/// <summary>What page, API and command ask of mounts; what is null is taken from the campaign, or is usual.</summary>
internal sealed record MountAsk
{
    // Pole twice, since what is called free field stands at 6 to 10 m.
    private static readonly (Mount Mount, double HeightM)[] Usual =
        [.. Enum.GetValues<Mount>().Select(m => (m, m.UsualHeightM)).Append((Register.Campaigns.Mount.Pole, 6)).OrderBy(u => u.Item2)];

    public string? Campaign { get; init; }

    public Mount? Mount { get; init; }

    public double? HeightM { get; init; }

    public SourceClass? Source { get; init; }

    public double? FromHz { get; init; }

    public double? ToHz { get; init; }

    public double? ToleranceDb { get; init; }

    public double? ElevationDeg { get; init; }

    public double? TemperatureC { get; init; }

    public double? ColdC { get; init; }

    public double? WarmC { get; init; }

    public double? Reflection { get; init; }

    public double? HeightOffMm { get; init; }

    /// <summary>The mounts that it asks about, with the stations that stand so, and what of it cannot be.</summary>
    /// <returns>Null where there is no such campaign with a plan.</returns>
    public MountSheet? Of(Register.Register? register)
    {
        if (Campaign is null) return Sheet(null, [.. Own().Select(q => new MountGroup(q, [], [], true))]);
        if (register is null || CampaignMounts.Of(register, Campaign) is not { } planned) return null;
        var groups = planned.Groups.Where(g => Mount is null || g.Question.Mount == Mount);
        return Sheet(planned, [.. groups.Select(g => g with { Question = With(g.Question) })]);
    }

    // What was typed is refused; what a fact from elsewhere states is shown with what is wrong with it.
    private MountSheet Sheet(CampaignMounts? planned, IReadOnlyList<MountGroup> groups)
    {
        List<MountFault> faults = [];
        if (HeightM is { } h && Mount is null)
        {
            const string allowed = "one of a mount that is named, since each has a height of its own";
            faults.Add(new("height", h.ToString(CultureInfo.InvariantCulture), allowed));
        }
        // Where no station stands so, what was typed is still looked at.
        var asked = groups.Count > 0 ? groups.Select(g => g.Question) : Own();
        faults.AddRange(asked.SelectMany(q => q.Faults()).Where(f => planned is null || IsTyped(f.Field)).Distinct());
        return faults.Count > 0 ? new(planned, [], faults) : new(planned, [.. groups.Select(MountRow.Of)], []);
    }

    private IEnumerable<MountQuestion> Own()
    {
        var source = Source ?? (FromHz is null && ToHz is null ? SourceClass.Jet : SourceClass.Other);
        var (from, to) = MountPractice.UsualBand(source);
        var mounts = Mount is not { } mount ? Usual : HeightM is { } h ? [(mount, h)] : Usual.Where(u => u.Mount == mount);
        return mounts.Select(u => With(new(u.Mount, u.HeightM, source, from, to) { HeightOffMm = MountQuestion.UsualOffMm(u.Mount) }));
    }

    private MountQuestion With(MountQuestion q) => q with
    {
        HeightM = HeightM ?? q.HeightM,
        Source = Source ?? q.Source,
        FromHz = FromHz ?? q.FromHz,
        ToHz = ToHz ?? q.ToHz,
        ToleranceDb = ToleranceDb ?? q.ToleranceDb,
        ElevationDeg = ElevationDeg ?? q.ElevationDeg,
        TemperatureC = TemperatureC ?? q.TemperatureC,
        ColdC = ColdC ?? q.ColdC,
        WarmC = WarmC ?? q.WarmC,
        Reflection = Reflection ?? q.Reflection,
        HeightOffMm = HeightOffMm ?? q.HeightOffMm,
    };

    private bool IsTyped(string field) => field switch
    {
        "height" => HeightM is not null,
        "elevation" => ElevationDeg is not null,
        "from" => FromHz is not null,
        "to" => ToHz is not null,
        "tolerance" => ToleranceDb is not null,
        "temperature" => TemperatureC is not null,
        "cold" => ColdC is not null,
        "warm" => WarmC is not null,
        "reflection" => Reflection is not null,
        _ => HeightOffMm is not null,
    };
}

/// <summary>Mounts to be shown.</summary>
/// <param name="Campaign">The campaign that they are of; null where none was asked about.</param>
/// <param name="Rows">The mounts, in order.</param>
/// <param name="Faults">Why there are none.</param>
public sealed record MountSheet(CampaignMounts? Campaign, IReadOnlyList<MountRow> Rows, IReadOnlyList<MountFault> Faults)
{
    /// <summary>Those that can be answered.</summary>
    public IReadOnlyList<MountAnswer> Answers => [.. Rows.Select(r => r.Answer).OfType<MountAnswer>()];

    /// <summary>What it is of.</summary>
    public string Title => Campaign is null ? "Mounts against a source" : $"{Campaign.Plan.Name}: its mounts against its source";

    /// <summary>The table of all bands.</summary>
    public ExportTable Table(IReadOnlyList<(string Name, string Value)> provenance) => MountTable.Of(
        Title, Rows.Where(r => r.Answer is not null).Select(r => (r.Answer!, r.Group.Stations)), provenance);

    /// <summary>The plot of the first mounts; null where there is nothing to draw.</summary>
    public Drawing? Plot => Answers is { Count: > 0 } answers
        ? MountPlot.Of(answers, $"{Title}: level re free field by third-octave band, dB")
        : null;
}

/// <summary>A mount with its answer.</summary>
/// <param name="Group">The mount, with the stations that stand so.</param>
/// <param name="Answer">Null where what is stored of it cannot be asked about.</param>
public sealed record MountRow(MountGroup Group, MountAnswer? Answer)
{
    public static MountRow Of(MountGroup group) =>
        new(group, group.Question.Faults().Count == 0 ? MountAnswer.Of(group.Question) : null);

    /// <summary>What it is called.</summary>
    public string Name => MountPlot.Name(Group.Question);
}
