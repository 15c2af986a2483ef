using MicRegister.Documents.Labels;
using MicRegister.Register.Devices;
using MicRegister.Register.Labels;
using MicRegister.Server.Outdoors;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Labels: what a code is on, and putting one on a device.</summary>
internal static class LabelsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/labels/{code}", Find).Produces<LabelView>().WithTags("labels");
        app.MapGet("/api/labels/sheet.{format}", Sheet).WithTags("labels");
        app.MapPost("/api/devices/{id}/labels", (HttpContext c, Desk desk, string id, NewLabel body) => Answers.Submit(
            c, desk, (r, s) => LabelBook.Bind(r, s, body.Code, id), r => r.Device(id))).WithTags("labels");
    }

    // Labels that exist, or blank ones with new codes; nothing is bound by reading.
    private static IResult Sheet(
        Desk desk, string format, string layout, string? kind, string[]? serial, string[]? device, string? campaign, int? blank,
        string? address, int? first, int? dpi)
    {
        if (LabelOrder.Layout(layout) is not { } found)
            return Answers.Invalid($"Layout '{layout}': allowed are {string.Join(", ", LabelOrder.Layouts().Select(l => l.Name))}.");
        if (blank is < 1 or > LabelOrder.MostBlank)
            return Answers.Invalid($"Blank '{blank}': allowed is a whole number from 1 to {LabelOrder.MostBlank}.");
        if (dpi is < 100 or > 2400) return Answers.Invalid($"Dpi '{dpi}': allowed is a whole number from 100 to 2400.");
        var labels = new LabelOrder(kind, serial ?? [], campaign, blank) { Ids = device ?? [] }.Labels(desk.Now);
        if (labels.Count == 0) return Answers.NotFound("None of them has a label.");
        using var content = new MemoryStream();
        try
        {
            var pages = LabelSheet.Pages(
                found, labels, address ?? LabelSheet.UsualAddress, first ?? 1,
                format == "png" ? dpi ?? found.DotsPerInch[0] : dpi);
            LabelFile.Write(pages, "." + format, dpi ?? found.DotsPerInch[0], content);
        }
        catch (ArgumentException e)
        {
            return Answers.Invalid(e.Message);
        }
        var type = format switch { "svg" => "image/svg+xml", "png" => "image/png", _ => "application/pdf" };
        return Results.Bytes(content.ToArray(), type, $"labels-{layout}.{format}");
    }

    private static IResult Find(Desk desk, string code) => LabelCode.TryRead(code, out var read, out var why)
        ? Results.Ok(new LabelView(
            read.Text, read.Spoken, LabelBook.WasUsed(desk.Now, read),
            [.. LabelBook.Of(desk.Now, read)
                .Select(b => new LabelView.On(b.Device, b.Campaign, b.Station, LabelBook.Name(desk.Now, b)))]))
        : Answers.Invalid(why!);

    internal sealed record NewLabel(string Code);
}

/// <summary>What a label is on.</summary>
/// <param name="Code">Nine characters.</param>
/// <param name="Spoken">In groups, to be read aloud.</param>
/// <param name="WasUsed">Whether it was ever bound: then it is never given again.</param>
/// <param name="Bound">What carries it; several contradict each other.</param>
public sealed record LabelView(string Code, string Spoken, bool WasUsed, IReadOnlyList<LabelView.On> Bound)
{
    /// <summary>A device, or a station of a campaign.</summary>
    public sealed record On(string? Device, string? Campaign, string? Station, string Name);
}
