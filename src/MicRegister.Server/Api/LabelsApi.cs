using MicRegister.Register.Labels;

namespace MicRegister.Server.Api;

/// <summary>Labels: what a code is on, and putting one on a device.</summary>
internal static class LabelsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/labels/{code}", Find).Produces<LabelView>().WithTags("labels");
        app.MapPost("/api/devices/{id}/labels", (HttpContext c, Desk desk, string id, NewLabel body) => Answers.Submit(c, desk, (r, s) => LabelBook.Bind(r, s, body.Code, id), r => r.Device(id))).WithTags("labels");
    }

    private static IResult Find(Desk desk, string code) => LabelCode.TryRead(code, out var read, out var why)
        ? Results.Ok(new LabelView(read.Text, read.Spoken, LabelBook.WasUsed(desk.Now, read), [.. LabelBook.Of(desk.Now, read).Select(b => new LabelView.On(b.Device, b.Campaign, b.Station, LabelBook.Name(desk.Now, b)))]))
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
