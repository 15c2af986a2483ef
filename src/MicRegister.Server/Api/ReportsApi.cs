using MicRegister.Documents.Drawings;
using MicRegister.Documents.Reports;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Comparison;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>The evidence of a campaign as a file, and two campaigns side by side.</summary>
internal static class ReportsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/campaigns/{id}/evidence.pdf", Evidence).WithTags("reports");
        app.MapGet("/api/set-ups", (Desk desk, string a, string b) => SetupComparison.Of(desk.Now, a, b) is { } found
            ? Results.Ok(SetupView.Of(found))
            : Answers.NotFound($"There is no campaign {a}, or none {b}, with a plan.")).Produces<SetupView>().WithTags("reports");
    }

    private static IResult Evidence(Desk desk, string id)
    {
        var register = desk.Now;
        var provenance = Provenance.Of(desk, register);
        if (EvidenceReport.Of(register, id, desk.Today, provenance) is not { } blocks)
            return Answers.NotFound($"There is no campaign {id} with a plan.");
        using var content = new MemoryStream();
        PdfPainter.Paint(ReportPages.Of(EvidenceReport.TitleOf(register.Campaign(id)!), Foot(provenance), blocks), content);
        return Results.Bytes(content.ToArray(), "application/pdf", $"evidence-{id}.pdf");
    }

    private static string Foot(IReadOnlyList<(string Name, string Value)> provenance)
    {
        var chain = provenance[2].Value;
        return $"Register {provenance[0].Value}, sequence {provenance[1].Value}, chain {chain[..Math.Min(16, chain.Length)]}";
    }
}

/// <summary>Two campaigns side by side.</summary>
/// <param name="DifferenceDb">Difference in dB that the set-up alone makes, A minus B; null where a mount is mixed or not known.</param>
/// <param name="CommonToHz">Highest frequency that both hold for; null where neither sets one.</param>
public sealed record SetupView(
    IReadOnlyList<SetupRow> Rows, double? DifferenceDb, double CommonFromHz, double? CommonToHz, bool HasCommonBand,
    ComparisonVerdict Verdict, IReadOnlyList<string> Reasons, IReadOnlyList<string> ToDo)
{
    internal static SetupView Of(SetupComparison c) => new(
        c.Rows, c.DifferenceDb, c.CommonFromHz, double.IsFinite(c.CommonToHz) ? c.CommonToHz : null, c.HasCommonBand, c.Verdict,
        c.Reasons, c.ToDo);
}
