using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Reports;

/// <summary>The evidence of a campaign for somebody who does not have the register: what stood where, what it rests on, and what can be relied on.</summary>
public static class EvidenceReport
{
    private static readonly string[] PairHead = ["What", "Value"];
    private static readonly string[] FileHead = ["Event", "File", "Recorder", "Length, bytes", "SHA-256 of its bytes"];
    private static readonly string[] ToneHead = ["Check at", "File", "Channel", "Length, bytes", "SHA-256 of its bytes"];

    /// <summary>What stands above it.</summary>
    public static string TitleOf(CampaignState campaign) => $"Evidence of {campaign.Name}";

    /// <summary>Writes the report.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">Id of a campaign.</param>
    /// <param name="today">Day as of which its readiness is judged.</param>
    /// <param name="provenance">What tells where the report comes from, such as program, log, sequence and digest, in order.</param>
    /// <returns>Null where no plan of that campaign is known.</returns>
    public static IReadOnlyList<ReportBlock>? Of(Register.Register register, string campaign, DateOnly today, IReadOnlyList<(string Name, string Value)> provenance)
    {
        if (register.Campaign(campaign) is not { Plan: { } plan } state) return null;
        var evidence = new Evidence(register, state, plan, today);
        return
        [
            // What it comes to first, then what was found, then what that rests on; the limits are for who looks them up.
            .. GlanceEvidence.Of(evidence), .. ArrayEvidence.Scope(evidence),
            .. EventEvidence.Events(evidence), .. EventEvidence.Doubts(evidence), .. EventEvidence.Findings(evidence),
            .. ArrayEvidence.Stations(evidence), .. ArrayEvidence.Chains(evidence),
            .. MeasuringEvidence.Certificates(evidence), .. MeasuringEvidence.Checks(evidence),
            .. ArrayEvidence.Requirements(evidence), .. Provenance(evidence, provenance),
        ];
    }

    private static IEnumerable<ReportBlock> Provenance(Evidence e, IReadOnlyList<(string Name, string Value)> provenance)
    {
        yield return new ReportHeading(1, "11 Where this report comes from, and how to read it");
        if (provenance.Count > 0) yield return new ReportTable("Provenance", PairHead, [.. provenance.Select(p => Evidence.Row(p.Name, p.Value))]);
        yield return new ReportText($"The report is worked out from {Evidence.Count(e.Register.Count, "fact", "facts")} of a log and from nothing else. "
            + "A fact is what a person said or a device read, with the time and the author; none is ever edited or deleted, and what was wrong is annulled or stated anew by a further fact. "
            + "The same report can be made again from that log at that sequence, for the same day, with the same version of the program. Facts that came later may change what is said here.");
        yield return new ReportText("A hash (SHA-256) of a file shows that a file is the one that was meant: whoever holds the file can work the hash out again, and a file of which anything was changed has another one. "
            + "A digest of the log shows in the same way which facts the report was made from: two logs with one digest hold the same facts, in whichever order they came. "
            + "Neither shows that what was said is true; for that there are the authors, the certificates and the checks.");
        yield return new ReportText("Levels are in dB re 20 µPa, sensitivities in dB re 1 V/Pa or re 1 full scale/Pa, other differences in dB. U is an expanded uncertainty, k its coverage factor; k of about 2 stands for 95 % coverage. "
            + "Times are given by the clock of the site and in UTC.");
        List<string[]> files = [.. e.Traces.SelectMany(t => t.Event.Recordings.Select(r => Evidence.Row(t.Event.Name, r.File,
            r.Recorder ?? "not known", QuantityText.Number(r.Bytes, 0), r.Sha256)))];
        if (files.Count > 0) yield return new ReportTable("Files that hold the events", FileHead, [.. files]);
        var tones = new List<string[]>();
        foreach (var k in e.Checks)
        {
            if (k.Check.Tone is { } tone) tones.Add(Evidence.Row($"{k.Check.Station ?? "bench"}, {Evidence.Date(k.Day)}", tone.File,
                QuantityText.Number(tone.Channel, 0), QuantityText.Number(tone.Bytes, 0), tone.Sha256));
        }
        if (tones.Count > 0) yield return new ReportTable("Files that checks were read from", ToneHead, [.. tones]);
    }

    /// <summary>What a fact says, in words that its kind is stored under.</summary>
    internal static string Said(Fact fact) => fact.Kind.Replace('-', ' ');
}
