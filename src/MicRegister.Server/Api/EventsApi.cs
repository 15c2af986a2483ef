using MicRegister.Documents.Exports;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;
using MicRegister.Register.Settings;
using MicRegister.Register.Tracing;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Events, what applies to them, and what is in doubt.</summary>
internal static class EventsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var of = app.MapGroup("/api/campaigns/{id}").WithTags("events");
        of.MapGet("/events", List).Produces<Page<ListedEvent>>();
        of.MapPost("/events", (HttpContext c, Desk desk, string id, EventHappened[] body) => Answers.Submit(
            c, desk, (r, s) => EventDecisions.Record(r, s, id, body)));
        of.MapPost("/events/table", TakeTable);
        of.MapPost("/recordings", (HttpContext c, Desk desk, string id, bool? make, EventRecording[] body) => Answers.Submit(
            c, desk, (r, s) => EventDecisions.Join(r, s, id, body, make ?? false)));
        of.MapPost("/clocks", (HttpContext c, Desk desk, string id, RecorderClockSet body) => Answers.Submit(
            c, desk, (r, s) => EventDecisions.SetClock(r, s, id, body)));
        of.MapPost("/clock-checks", (HttpContext c, Desk desk, string id, RecorderTimeChecked body) => Answers.Submit(
            c, desk, (r, s) => EventDecisions.CheckTime(r, s, id, body)));
        of.MapPost("/clock-hours", (HttpContext c, Desk desk, string id, HourChosen body) => Answers.Submit(
            c, desk, (r, s) => EventDecisions.ChooseHour(r, s, id, body)));
        of.MapPost("/sensitivity-rule", (HttpContext c, Desk desk, string id, SensitivityRuleChosen body) => Answers.Submit(
            c, desk, (r, s) => EventDecisions.ChooseRule(r, s, id, body)));
        of.MapGet("/analysis.{format}", Analysis);
        of.MapGet("/bands.{format}", Bands);
        of.MapGet("/budget.{format}", Budget);
        of.MapGet("/covariance.{format}", Covariance);
        of.MapPost("/incidences", (HttpContext c, Desk desk, string id, NewIncidence body) => Answers.Submit(
            c, desk, (r, s) => IncidenceBook.State(
                r, s, id, body.Event, new(body.Station, body.AngleDeg, body.HalfWidthDeg, body.Reason))));
        of.MapGet("/sessions", (Desk desk, string id) => desk.Now.Campaign(id) is null
            ? Answers.NotFound($"There is no campaign {id}.")
            : Results.Ok(SessionView.Of(desk.Now, id))).Produces<IReadOnlyList<SessionView>>();
        of.MapPost("/sessions", (HttpContext c, Desk desk, string id, TestSessionStated body) => Answers.Submit(
            c, desk, (r, s) => TestSessions.State(r, s, id, body)));
        of.MapGet("/comparisons", (Desk desk, string id, int? offset, int? limit) => desk.Now.Campaign(id) is null
            ? Answers.NotFound($"There is no campaign {id}.")
            : Answers.Paged(ComparisonBook.OfCampaign(desk.Now, id), offset, limit, ComparisonView.Of)).Produces<Page<ComparisonView>>();
        of.MapPost("/comparisons", (HttpContext c, Desk desk, string id, NewComparison body) => Answers.Submit(
            c, desk, (r, s) => ComparisonBook.Compare(r, s, id, body.At, body.ToFact())));
        app.MapGet("/api/events/{id}", (Desk desk, string id) => EventBook.Find(desk.Now, id) is { } found
            ? Results.Ok(found)
            : Answers.NotFound($"There is no event {id}.")).Produces<RecordedEvent>().WithTags("events");
        app.MapGet("/api/events/{id}/trace", (Desk desk, string id, string? station) => Tracer.Of(desk.Now, id, station) is { } trace
            ? Results.Ok(TraceView.Of(trace))
            : Answers.NotFound($"There is no event {id}.")).Produces<TraceView>().WithTags("events");
        app.MapGet("/api/events/{id}/bands", EventBands).Produces<IReadOnlyList<BandsView>>().WithTags("events");
        app.MapGet("/api/rests-on/{kind}/{id}", (Desk desk, string kind, string id) =>
            TraceGraph.Around(
                desk.Now, kind, id, person => [.. desk.Live.Log.Find(new(Author: person)).Where(s => s <= desk.Now.Count)]) is { } graph
                ? Results.Ok(graph)
                : Answers.NotFound($"There is no {kind} {id}; "
                    + "kinds are device, certificate, check, placement, station (EVENT|STATION), event and person."))
            .Produces<TraceGraph>().WithTags("events");
        app.MapGet("/api/doubts", (Desk desk, string? device, int? offset, int? limit) => Answers.Paged(
            device is null ? DoubtBook.All(desk.Now) : DoubtBook.OfDevice(desk.Now, device), offset, limit, DoubtView.Of))
            .Produces<Page<DoubtView>>().WithTags("doubts");
        app.MapGet("/api/doubts/{key}", (Desk desk, string key) => DoubtBook.Find(desk.Now, key) is { } doubt
            ? Results.Ok(DoubtReportView.Of(DoubtReport.Of(desk.Now, doubt)))
            : Answers.NotFound($"There is no doubt {key}.")).Produces<DoubtReportView>().WithTags("doubts");
        app.MapPost("/api/doubts/{key}/settlements", (HttpContext c, Desk desk, string key, NewSettlement body) => Answers.Submit(
            c, desk, (r, s) => DoubtBook.Settle(r, s, key, body.IsConfirmed, body.Events ?? [], body.Reason))).WithTags("doubts");
    }

    private static IResult List(
        Desk desk, string id, Word<EventKind>? kind, DateOnly? from, DateOnly? to, string? name, int? offset, int? limit,
        bool? verdicts)
    {
        var register = desk.Now;
        if (register.Campaign(id) is not { } campaign) return Answers.NotFound($"There is no campaign {id}.");
        var offsets = campaign.Plan?.Offsets ?? [];
        var found = EventBook.OfCampaign(register, id).Where(e => (kind is null || e.Kind == kind.Value.Value)
            && (from is null || e.DayAt(offsets) >= from) && (to is null || e.DayAt(offsets) <= to)
            && (name is null || e.Name.Contains(name, StringComparison.OrdinalIgnoreCase)));
        return Answers.Paged([.. found], offset, limit, e => ListedEvent.Of(register, e, verdicts ?? true));
    }

    // All rows or none: what is wrong is told by row, field and value.
    private static async Task<IResult> TakeTable(HttpContext context, Desk desk, string id)
    {
        if (desk.Now.Campaign(id) is not { } campaign) return Answers.NotFound($"There is no campaign {id}.");
        using var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        EventTable table;
        try
        {
            content.Position = 0;
            table = EventFile.Read(content, "events.csv", campaign.Plan?.Offsets ?? []);
        }
        catch (SheetException e)
        {
            return Answers.Invalid(e.Message);
        }
        if (table.Bad.Count > 0)
        {
            var wrong = table.Bad.Take(5).Select(b => $"Row {b.Row}, {b.Field} '{b.Value}': allowed is {b.Allowed}.");
            return Results.Problem(
                string.Join(" ", wrong), statusCode: StatusCodes.Status422UnprocessableEntity, title: "Not accepted",
                extensions: new Dictionary<string, object?> { ["rows"] = table.Bad });
        }
        return await Answers.Submit(context, desk, (r, s) => EventDecisions.Record(r, s, id, [.. table.Good.Select(g => g.Happened)]));
    }

    private static IResult Analysis(HttpContext context, Desk desk, string id, string format, string? @event) => Table(
        context, desk, id, format, @event, "",
        (campaign, traces) => AnalysisTable.Of(campaign.Name, traces, Provenance.Of(desk, desk.Now)));

    private static IResult Budget(HttpContext context, Desk desk, string id, string format, string? @event) => Table(
        context, desk, id, format, @event, "-budget",
        (campaign, traces) => BudgetTable.Of(campaign.Name, traces, Provenance.Of(desk, desk.Now)));

    private static IResult Table(
        HttpContext context, Desk desk, string id, string format, string? @event, string tail,
        Func<CampaignState, IEnumerable<EventTrace>, ExportTable> of)
    {
        if (desk.Now.Campaign(id) is not { } campaign) return Answers.NotFound($"There is no campaign {id}.");
        List<RecordedEvent> events = [.. EventBook.OfCampaign(desk.Now, id).Where(e => @event is null || e.Id == @event)];
        if (@event is not null && events.Count == 0) return Answers.NotFound($"There is no event {@event} in {id}.");
        var table = of(campaign, events.Select(e => Tracer.Of(desk.Now, e.Id)!));
        return Tables.Answer(context, desk, table, format, $"{id}{Tail(@event)}{tail}");
    }

    // One event has up to some thousand rows a hundred stations; of a whole campaign they would be millions.
    private static IResult Bands(
        HttpContext context, Desk desk, string id, string format, string? @event, string? station, double[]? angle)
    {
        if (@event is null) return Answers.Invalid("Event is missing: name the event whose bands are to be corrected.");
        if (angle is { Length: > 37 } || angle?.Any(a => !(a is >= 0 and <= 180)) == true)
            return Answers.Invalid("Angle: up to 37 numbers from 0 to 180 ° are allowed.");
        return Table(
            context, desk, id, format, @event, "-bands", (campaign, _) => BandTable.Of(
                campaign.Name, campaign.Plan, [Tracer.Of(desk.Now, @event, station)!], desk.Curves, angle ?? [],
                Provenance.Of(desk, desk.Now)));
    }

    private static IResult Covariance(
        HttpContext context, Desk desk, string id, string format, string? @event, Word<UncertaintyPart>? part,
        Word<SensitivityUnit>? unit)
    {
        if (@event is null) return Answers.Invalid("Event is missing: covariances are of the stations of one event.");
        return Table(
            context, desk, id, format, @event,
            "-covariance" + (unit is { } u ? "-" + WordsOfEnumerations.Of(u.Value) : "")
                + (part is { } p ? "-" + WordsOfEnumerations.Of(p.Value) : ""),
            (campaign, traces) => CovarianceTable.Of(
                campaign.Name, EventCovariance.Of(traces.Single(), unit?.Value ?? SensitivityUnit.Volts), part?.Value,
                Provenance.Of(desk, desk.Now)));
    }

    private static IResult EventBands(Desk desk, string id, string? station, double? angle)
    {
        if (angle is { } a && !(a is >= 0 and <= 180))
            return Answers.Invalid(FormattableString.Invariant($"Angle '{a}': allowed is a number from 0 to 180 °."));
        if (Tracer.Of(desk.Now, id, station) is not { } trace) return Answers.NotFound($"There is no event {id}.");
        var plan = desk.Now.Campaign(trace.Event.Campaign)?.Plan;
        return Results.Ok(trace.Stations.Select(s => BandsView.Of(s, BandCorrections.Of(s, plan, desk.Curves, angle))));
    }

    private static string Tail(string? @event) => @event is null ? "" : "-" + @event[(@event.IndexOf('.', StringComparison.Ordinal) + 1)..];

    internal sealed record NewIncidence(string? Event, string? Station, double AngleDeg, double? HalfWidthDeg, string Reason);

    internal sealed record NewComparison(
        string At, string Source, double? FrequencyHz, IReadOnlyList<NewComparison.NewChain> Chains, double? ExpandedDb, string? Remark)
    {
        public ChainsCompared ToFact() => new(
            Source, FrequencyHz,
            [.. Chains.Select(c => new ComparedChain(c.Station, c.Devices ?? [], c.LevelDb, c.ExpectedDb ?? 0))],
            ExpandedDb, Remark);

        internal sealed record NewChain(string Station, double LevelDb, double? ExpectedDb, IReadOnlyList<string>? Devices);
    }

    internal sealed record NewSettlement(bool IsConfirmed, string[]? Events, string Reason);
}

/// <summary>Reads a table of events as it comes in a file.</summary>
internal static class EventFile
{
    /// <exception cref="SheetException">It is no table.</exception>
    public static EventTable Read(Stream content, string name, IReadOnlyList<ZoneOffset> offsets) =>
        EventTable.Read(
            [.. SheetFile.Open(content, name, SheetLimits.Usual).SelectMany(s => s.Rows)
                .Select(r => (IReadOnlyList<string>)[.. r.Cells.Select(c => c.Text ?? c.Shown)])],
            offsets);
}

/// <summary>What shows where a table or report comes from.</summary>
internal static class Provenance
{
    public static IReadOnlyList<(string Name, string Value)> Of(Desk desk, Register.Register register) =>
        Of(FactsApi.Head(desk, register), register);

    /// <summary>The same of a register with the head of its log.</summary>
    public static IReadOnlyList<(string Name, string Value)> Of(LogHead head, Register.Register register) =>
    [
        ("register", register.State.Founded?.RegisterId ?? "not founded"),
        ("sequence", register.Count.ToString(System.Globalization.CultureInfo.InvariantCulture)),
        ("chain-hash", register.Count == 0 ? "" : head.Chain),
        ("set-digest", register.Digest.ToString()),
        ("software", Software),
    ];

    /// <summary>Version of the program.</summary>
    public static string Software => typeof(Provenance).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";
}
