using MicRegister.Documents.Exports;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Server.Imports;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Takes a spreadsheet in: a dry run by default, stored when asked to. Lists what was taken over, and takes it back.</summary>
internal static class ImportsApi
{
    /// <summary>Greatest request.</summary>
    public const int MaxBytes = 64 << 20;

    /// <summary>Where several files are taken as one act.</summary>
    public const string FilesPath = "/api/imports/files";

    /// <summary>Part of the form that says what is asked for.</summary>
    public const string AskField = "ask";

    /// <summary>Part of the form for each file.</summary>
    public const string FileField = "file";

    /// <summary>How much of a request is left for all that is no file.</summary>
    public const int Beside = 8 << 20;

    private const int MostFiles = 1000;
    private const int MostName = 255;
    private const int MostTurns = 5;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost("/api/imports", Take).WithTags("imports")
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MaxBytes));
        app.MapPost(FilesPath, TakeFiles).WithTags("imports").Produces<ImportAnswer>()
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

    // Body: a form with the part "ask" (ImportAsk as JSON) and a part "file" for each file that is not said to be unreadable, in their
    // order. Without a plan nothing is stored; with the hash of the plan that was answered, that plan is, or nothing.
    private static async Task<IResult> TakeFiles(HttpContext context, Desk desk, TimeProvider time)
    {
        var cancel = context.RequestAborted;
        try
        {
            if (!context.Request.HasFormContentType) return Answers.Invalid("The body is no form: allowed is multipart/form-data.");
            var form = await Form(context.Request, cancel);
            if (ApiJson.Read<ImportAsk>(form[AskField].ToString()) is not { } ask) return Answers.Invalid("The part 'ask' is null.");
            var files = form.Files.GetFiles(FileField);
            if (Unfit(ask, files.Count) is { } unfit) return Answers.Invalid(unfit);
            var places = ask.Files.Select((f, i) => (f, i)).Where(x => x.f.Unreadable is null).Select((x, at) => (x.i, File: files[at]))
                .ToDictionary(x => x.i, x => x.File);
            for (var turn = 0; turn < MostTurns; turn++)
            {
                var importing = await Task.Run(
                    () => Importing.Worked(
                        desk.Now, desk.Today, Importing.RecordedIn(desk.Live.Log), ask, i => places[i].OpenReadStream(), cancel),
                    cancel);
                var answer = ImportAnswer.Of(importing, ask.Today ?? desk.Today, ask.Aside == true) with { Plan = importing.Digest };
                if (ask.Plan is null) return Results.Ok(answer);
                if (ask.Plan != answer.Plan)
                {
                    return Answers.Of(new(RejectionSort.Conflict, "The register changed meanwhile, so that these files would do something "
                        + "else than was shown. Nothing was stored: repeat it to see what they would do now."));
                }
                if (!answer.IsGood && ask.Partial != true)
                    return Answers.Invalid("Not all rows are good; 'partial' stores those that are.");
                // Where others stated something meanwhile, it is worked out anew and has to be the same.
                var speaker = Desk.Speaker(context);
                if (await importing.StoreAsWorkedOut(desk.Live, desk.Access, speaker, time, cancel) is not { } stored) continue;
                if (stored > 0) desk.Tell();
                return Results.Ok(answer with { Stored = stored });
            }
            return Answers.Of(new(
                RejectionSort.Conflict, "Others change the register faster than the files are worked out. Nothing was stored: try again."));
        }
        catch (System.Text.Json.JsonException e)
        {
            return Answers.Invalid($"The part 'ask' does not fit: {UnfitJson.Words(e)}.");
        }
        catch (Exception e) when (e is SheetException or BadUseException or FormatException)
        {
            return Answers.Invalid(e.Message);
        }
        catch (StoreException e)
        {
            return Results.Problem(e.Message, statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }

    private static async Task<IFormCollection> Form(HttpRequest request, CancellationToken cancel)
    {
        try
        {
            var limits = new Microsoft.AspNetCore.Http.Features.FormOptions
            { MultipartBodyLengthLimit = MaxBytes, ValueLengthLimit = Beside };
            return await request.ReadFormAsync(limits, cancel);
        }
        catch (Exception e) when (e is InvalidDataException or IOException and not BadHttpRequestException)
        {
            throw new BadUseException($"The form cannot be read: {e.Message.Trim()}");
        }
    }

    private static string? Unfit(ImportAsk ask, int files)
    {
        if (ask.Files.Count is 0 or > MostFiles) return $"Files: allowed are 1 to {MostFiles}.";
        if (ask.Files.Any(f => f is null)) return "files holds null: leave it out instead.";
        if (ask.Files.FirstOrDefault(f => f.Name.Length is 0 or > MostName || f.Name != Path.GetFileName(f.Name)) is { } named)
            return $"Name of a file '{named.Name}': allowed are 1 to {MostName} characters without a folder.";
        if (ask.Dates is not null && ImportMapping.Order(ask.Dates) is null)
            return $"Dates '{ask.Dates}': allowed are day-first and month-first.";
        var readable = ask.Files.Count(f => f.Unreadable is null);
        return readable == files ? null : $"The form holds {files} files; asked is of {readable} that can be read.";
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
