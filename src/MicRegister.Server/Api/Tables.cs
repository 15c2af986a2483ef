using System.Globalization;
using MicRegister.Documents.Exports;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Tables that leave the register as files.</summary>
internal static class Tables
{
    /// <summary>Media type of a workbook.</summary>
    public const string Workbook = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    /// <summary>Format of what describes comma-separated values.</summary>
    private const string Metadata = "csv" + CsvMetadata.Suffix;

    /// <summary>A table in a format. Comma-separated values name what describes them, of the state that both are of.</summary>
    /// <param name="context">The request.</param>
    /// <param name="desk">Which state it answers from.</param>
    /// <param name="table">The table.</param>
    /// <param name="format">csv, csv-metadata.json, json or xlsx.</param>
    /// <param name="name">Name of the file, without its ending.</param>
    public static IResult Answer(HttpContext context, Desk desk, ExportTable table, string format, string name)
    {
        using var content = new MemoryStream();
        switch (format)
        {
            case "csv":
                var (values, description) = Addresses(context.Request, desk, CsvMetadata.Suffix);
                context.Response.Headers.ContentLocation = values;
                context.Response.Headers.Link = $"<{description}>; rel=\"describedby\"; type=\"{CsvMetadata.MediaType}\"";
                CsvExport.Write(table, content);
                return Results.Bytes(content.ToArray(), "text/csv; charset=utf-8; header=present", name + ".csv");
            case Metadata:
                CsvMetadata.Write(table, Addresses(context.Request, desk, "").Values, content);
                return Results.Bytes(content.ToArray(), CsvMetadata.MediaType, name + "." + Metadata);
            case "json":
                JsonExport.Write(table, content);
                return Results.Bytes(content.ToArray(), "application/json", name + ".json");
            case "xlsx":
                XlsxExport.Write(table, content);
                return Results.Bytes(content.ToArray(), Workbook, name + ".xlsx");
            default:
                return Answers.NotFound($"Tables come as csv (described by {Metadata}), json and xlsx, not as {format}.");
        }
    }

    // Both name the sequence, so that what describes a table is of the same state as the table.
    private static (string Values, string Description) Addresses(HttpRequest request, Desk desk, string suffix)
    {
        var asked = request.Query.Where(q => q.Key != EarlierStates.Sequence).SelectMany(q => q.Value.Select(v => KeyValuePair.Create(q.Key, v)));
        var at = KeyValuePair.Create(EarlierStates.Sequence, (string?)desk.Now.Count.ToString(CultureInfo.InvariantCulture));
        var query = QueryString.Create([.. asked, at]);
        var path = (request.PathBase + request.Path).ToUriComponent();
        var values = suffix.Length == 0 ? path[..^CsvMetadata.Suffix.Length] : path;
        return (values + query, values + CsvMetadata.Suffix + query);
    }
}
