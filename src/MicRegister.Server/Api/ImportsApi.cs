using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Intake;
using MicRegister.Server.Imports;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Takes a spreadsheet in: a dry run by default, stored when asked to. Lists what was taken over, and takes it back.</summary>
internal static class ImportsApi
{
    private const int MaxBytes = 64 << 20;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost("/api/imports", Take).WithTags("imports")
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MaxBytes));
        var imports = app.MapGroup("/api/imports").WithTags("imports");
        imports.MapGet("/", (Desk desk, int? offset, int? limit) => Answers.Paged(ImportRow.All(desk.Now), offset, limit))
            .Produces<Page<ImportRow>>();
        imports.MapGet("/{id}/take-back", (Desk desk, string id) => ImportTakeBack.Plan(desk.Now, id) is { } plan
            ? Results.Ok(TakeBackView.Of(desk.Now, plan))
            : Answers.NotFound($"There is no import {id}.")).Produces<TakeBackView>();
        imports.MapPost("/{id}/take-back", (HttpContext c, Desk desk, string id, NewTakeBack body) => Answers.Submit(
            c, desk, (r, s) => ImportTakeBack.TakeBack(r, s, id, body.Reason)));
        imports.MapPost("/{id}/count-again", (HttpContext c, Desk desk, string id) => Answers.Submit(
            c, desk, (r, s) => ImportTakeBack.Undo(r, s, id)));
    }

    // Body: the file itself. Query: its name, dates=day-first|month-first, mapping=the rules of a mapping file,
    // asOf=the day as of which it speaks, store=true, partial=true.
    private static async Task<IResult> Take(
        HttpContext context, Desk desk, TimeProvider time, string? name, string? dates, string? mapping, bool? store, bool? partial,
        DateOnly? asOf)
    {
        if (dates is not null && ImportMapping.Order(dates) is null)
            return Answers.Invalid($"Dates '{dates}': allowed are day-first and month-first.");
        using var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        try
        {
            var rules = ImportMapping.Read(new StringReader(mapping ?? ""), "mapping");
            var importing = new Importing(desk.Now, desk.Today, Importing.RecordedIn(desk.Live.Log));
            importing.Take(
                content, name is { Length: > 0 and <= 200 } ? Path.GetFileName(name) : "upload",
                rules with { Dates = dates is null ? rules.Dates : ImportMapping.Order(dates), AsOf = asOf ?? rules.AsOf },
                null, context.RequestAborted);
            var stored = store == true && (importing.IsGood || partial == true)
                ? await importing.Store(desk.Live, desk.Access, Desk.Speaker(context), time, context.RequestAborted)
                : 0;
            if (stored > 0) desk.Tell();
            var report = ImportText.Json(importing.Reports[0]);
            report["isGood"] = importing.IsGood;
            report["stored"] = stored;
            return Results.Json(report);
        }
        catch (Exception e) when (e is SheetException or BadUseException)
        {
            return Answers.Invalid(e.Message);
        }
    }

    internal sealed record NewTakeBack(string? Reason);
}
