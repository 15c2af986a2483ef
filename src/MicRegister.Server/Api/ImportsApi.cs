using MicRegister.Documents.Exports;
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
        imports.MapGet("/templates/{table}.{format}", Template).Produces(200, contentType: "text/csv")
            .AsOfNowAlone("An empty table is the same in every state.");
        imports.MapGet("/{id}/legend", Legend).Produces(200, contentType: "text/plain");
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
            var file = name is { Length: > 0 and <= 200 } ? Path.GetFileName(name) : "upload";
            var legend = dates is null ? mapping ?? "" : LegendLines.With(mapping, "dates := " + dates);
            var rules = ImportMapping.Read(new StringReader(legend), "mapping");
            var importing = new Importing(desk.Now, desk.Today, Importing.RecordedIn(desk.Live.Log));
            importing.Take(
                content, file, rules with { AsOf = asOf ?? rules.AsOf }, null, context.RequestAborted, legend: (file, legend));
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

    private static IResult Template(string table, string format)
    {
        if (format is not ("csv" or "xlsx") || ImportTemplate.Find(table) is not { } template)
        {
            return Answers.NotFound($"There is no empty table {table}.{format}; there are "
                + string.Join(", ", ImportTemplate.All.Select(t => t.Key)) + ", each as .csv and .xlsx.");
        }
        var content = new MemoryStream();
        if (format == "csv") CsvExport.Write(template.Table, content);
        else XlsxExport.Write(template.Table, content);
        content.Position = 0;
        return Results.File(
            content, format == "csv" ? "text/csv" : "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
                $"{table}.{format}");
    }

    private static IResult Legend(Desk desk, string id) =>
        desk.Now.TakenImports().FirstOrDefault(i => i.Fact.Id.ToString() == id) is not { } import
            ? Answers.NotFound($"There is no import {id}.")
        : import.Accepted.Legend is not { } legend ? Answers.NotFound($"No answers are kept with the import of {import.Accepted.File}.")
        : Results.File(
            System.Text.Encoding.UTF8.GetBytes(legend.Text + "\n"), "text/plain; charset=utf-8", import.Accepted.File
                + ImportDraft.LegendEnd);

    internal sealed record NewTakeBack(string? Reason);
}
