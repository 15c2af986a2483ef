using MicRegister.Documents.Drawings;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Readiness;

namespace MicRegister.Documents.Reports;

/// <summary>What a campaign was to measure, where its stations are, and what stood there.</summary>
internal static class ArrayEvidence
{
    private static readonly string[] LimitHead = ["Limit", "Value", "Unit", "Where it comes from", "How sure that is"];
    private static readonly string[] SurveyHead =
    [
        "Station", "Latitude, °", "Longitude, °", "u of each, m", "Ground above sea level, m", "Height of the diaphragm, m", "u of heights, m",
        "Off the plan", "By",
    ];

    private static readonly string[] StationHead = ["Station", "Latitude, °", "Longitude, °", "Mount", "Height of the diaphragm, m", "Readiness"];
    private static readonly string[] ChainHead = ["Station", "From, site time", "From, UTC", "Until, site time", "Until, UTC", "Devices", "Gap, mm", "How it ended"];

    public static IEnumerable<ReportBlock> Scope(Evidence e)
    {
        var plan = e.Plan;
        yield return new ReportHeading(1, "2 Scope");
        yield return new ReportText(
            $"This report shows which microphones measured in the campaign {plan.Name}, what each of them rests on, "
            + "and which recordings can be relied on. "
            + $"The site is {(plan.Site.Length > 0 ? plan.Site : "not named")}, {QuantityText.UpTo(plan.AltitudeM, 1)} m above sea level. "
            + $"The campaign ran from {Evidence.Date(plan.FirstDay)} to {Evidence.Date(plan.LastDay)}, by days of the site ({plan.Zone}).");
        yield return new ReportText(
            $"The source was {plan.Source.InWords}. "
            + $"The band of interest is {QuantityText.UpTo(plan.LowestHz, 1)} Hz to {QuantityText.UpTo(plan.HighestHz, 1)} Hz"
            + (plan.LowestLevelDb is { } low ? $"; levels matter from {QuantityText.UpTo(low, 1)} dB re 20 µPa" : "")
            + (plan.HighestLevelDb is { } high ? $"; up to {QuantityText.UpTo(high, 1)} dB re 20 µPa are expected, peaks included" : "")
            + $". The sensitivity that is applied to recordings is told by this rule: {e.Campaign.Rule.InWords}.");
        yield return new ReportText(
            $"It is judged by the requirement profile {e.Profile?.Written.Name ?? plan.Profile}, whose limits stand in section 10.");
    }

    public static IEnumerable<ReportBlock> Requirements(Evidence e)
    {
        var plan = e.Plan;
        yield return new ReportHeading(1, "10 The requirements it is judged by");
        if (e.Profile is not { } profile)
        {
            yield return new ReportText($"The campaign names the requirement profile {plan.Profile}, and the register does not know it: no limit of it is applied here.");
            yield break;
        }
        yield return new ReportText($"Requirement profile: {profile.Written.Name} ({profile.Id}). {profile.Written.Statement}");
        yield return new ReportText(profile.Confirmed is { } confirmed
            ? $"A person compared the profile with the current text of its source: {ProfileWords.Checked(e.Register, profile)}."
                + (confirmed.Remark is { Length: > 0 } remark ? $" Remark: {remark}." : "")
            : $"The profile is {ProfileState.Unchecked}: nobody compared its figures, as they stand here, with the source.");
        yield return new ReportText("Figures of built-in profiles are unchecked; follow the authority's current text.");
        if (profile.Written.Limits.Count > 0)
        {
            yield return new ReportTable("Limits of the profile", LimitHead, [.. profile.Written.Limits.Select(l => LimitKey.Find(l.Key) is { } key
                ? Evidence.Row(
                    key.Label, l.Value is { } v ? QuantityText.UpTo(v, 3) + (l.Text is { } more ? ", " + more : "") : l.Text ?? "",
                    key.Unit, l.Source, l.Certainty)
                : Evidence.Row(l.Key, l.Value is { } u ? QuantityText.UpTo(u, 3) : l.Text ?? "", "", l.Source, l.Certainty))]);
        }
    }

    public static IEnumerable<ReportBlock> Stations(Evidence e)
    {
        yield return new ReportHeading(1, "6 The array");
        if (e.Campaign.Stations.Count == 0)
        {
            yield return new ReportText("No station was planned.");
            yield break;
        }
        var verdicts = e.Readiness?.Stations.ToDictionary(s => s.Station, s => s.Verdict) ?? [];
        yield return new ReportText($"{Evidence.Count(e.Campaign.Stations.Count, "station was", "stations were")} planned. The marks and the last column tell how ready the planned chain of each station is as of {Evidence.Date(e.Today)}: a disc is ready, a triangle at risk, a square not ready, a rhombus undecided. What they say of recordings stands in section 3.");
        var by = e.Campaign.Surveys.IsEmpty ? "planned" : "surveyed, otherwise planned,";
        yield return new ReportFigure(ArrayMap.Of(e.Campaign, verdicts), $"The array of {e.Plan.Name} from above, by its {by} places (WGS84)");
        yield return new ReportTable("Stations as planned", StationHead, [.. e.Campaign.Stations.Values.Select(s => Evidence.Row(
            s.Station, QuantityText.Number(s.LatitudeDeg, 6), QuantityText.Number(s.LongitudeDeg, 6), s.Mount.InWords,
            QuantityText.Stated(new PlannedChain(s.Station, s, []).HeightM, "m") + (s.HeightM is null ? " (usual for the mount)" : ""),
            (verdicts.GetValueOrDefault(s.Station, ReadinessVerdict.Undecided)).InWords))]);
        List<StationPlace> surveyed = [.. e.Campaign.Stations.Keys.Select(s => e.Campaign.PlaceOf(s)!).Where(p => p.Survey is not null)];
        if (surveyed.Count == 0)
        {
            yield return new ReportText("No station was surveyed: places and heights are those of the plan.");
            yield break;
        }
        if (surveyed.Count < e.Campaign.Stations.Count)
        {
            var rest = Evidence.Count(e.Campaign.Stations.Count - surveyed.Count, "station was", "stations were");
            yield return new ReportText($"{rest} not surveyed: there places and heights are those of the plan.");
        }
        yield return new ReportTable("Stations as surveyed", SurveyHead, [.. surveyed.Select(Row)]);
    }

    private static string[] Row(StationPlace place)
    {
        var said = place.Survey!.Said;
        var height = said.HeightM is { } h ? QuantityText.Stated(h, "m") : $"{QuantityText.UpTo(place.HeightM, 3)} ({place.HeightBy})";
        return Evidence.Row(
            said.Station, QuantityText.Number(said.LatitudeDeg, 7), QuantityText.Number(said.LongitudeDeg, 7),
            QuantityText.UpTo(said.HorizontalStandardM, 3), said.AltitudeM is { } a ? QuantityText.Stated(a, "m") : "not measured", height,
            said.VerticalStandardM is { } v ? QuantityText.UpTo(v, 3) : "", QuantityText.Of(place.OffPlanM, "m", 2), said.Method);
    }

    public static IEnumerable<ReportBlock> Chains(Evidence e)
    {
        yield return new ReportHeading(1, "7 What stood at each station");
        yield return new ReportText("A chain is what stands at one station: microphone, preamplifier, recorder channel and what belongs to them. Each row is one chain as a crew said that it stood, from when it was placed until it was taken in, a part was swapped, or another was placed.");
        var rows = new List<string[]>();
        foreach (var station in e.Stations)
        {
            var placements = e.Deployment.Placements.Where(p => p.Station == station).ToList();
            if (placements.Count == 0) rows.Add(Evidence.Row(station, "", "", "", "", "nothing was placed there"));
            rows.AddRange(placements.Select(p => Row(e, p)));
        }
        if (rows.Count > 0) yield return new ReportTable("Chains as they stood", ChainHead, [.. rows]);
        else yield return new ReportText("No station was planned and nothing was placed.");
    }

    private static string[] Row(Evidence e, Placement p)
    {
        // Of a bare day nobody knows the time.
        var (local, utc) = p.Occurred.IsInstant ? (e.Local(p.From), Evidence.Utc(p.From)) : (Evidence.Date(p.Occurred.Day), "time not stated");
        var ended = p.End switch
        {
            PlacementEnd.TakenIn => "taken in",
            PlacementEnd.Swapped => "a part was swapped",
            PlacementEnd.PlacedAnew => "placed anew",
            _ => "nobody said that it was taken in",
        };
        var devices = e.Names(p.Devices) + string.Concat(p.UnknownLabels.Select(l => $"; something labelled {l}, which nobody knows"));
        var swap = p.Said.Swap is { } s ? $" In place of {e.Name(s.Out)}: {s.Reason}" : "";
        return Evidence.Row(
            p.Station, local, utc, p.Until is { } a ? e.Local(a) : "", p.Until is { } b ? Evidence.Utc(b) : "", $"{devices}.{swap}",
            p.Said.GapMm is { } gap ? QuantityText.UpTo(gap, 2) : "", ended);
    }
}
