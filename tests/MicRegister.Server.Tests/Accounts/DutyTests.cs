using System.Net;
using System.Net.Http.Json;
using System.Text.RegularExpressions;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticAssets;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>The table of duties against every endpoint that the server maps.</summary>
public sealed class DutyTests
{
    [Fact]
    public async Task Every_endpoint_is_in_the_table_and_every_row_is_an_endpoint()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        var endpoints = Endpoints(server).ToList();

        var missing = endpoints.Where(e => DutyTable.Of(e.Endpoint, e.Method) is null).Select(e => $"{e.Method} {e.Endpoint.RoutePattern.RawText}");
        var known = endpoints.Select(e => "/" + e.Endpoint.RoutePattern.RawText!.Trim('/')).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var stale = DutyTable.Endpoints.Keys.Select(k => k.Split(' ')[1]).Concat(DutyTable.Pages.Keys).Where(r => !known.Contains(r) && r is not ("/account/outside" or "/trust/authority.crt"));

        Assert.True(!missing.Any(), string.Join("\n", missing));
        Assert.True(!stale.Any(), string.Join("\n", stale));
        Assert.True(endpoints.Count > 100);
        // What pages are made of stands in no row and is open, or nobody would see the sign-in.
        var files = server.Services.GetRequiredService<EndpointDataSource>().Endpoints
            .Where(e => e.Metadata.GetMetadata<StaticAssetDescriptor>() is not null).ToList();
        Assert.NotEmpty(files);
        Assert.All(files, f => Assert.Equal(DutyTable.Anybody, DutyTable.Of(f, "GET")));
    }

    [Fact]
    public async Task Nobody_gets_in_without_signing_in_and_each_duty_gets_what_the_table_says()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        var wrong = new List<string>();
        foreach (var (endpoint, method) in Endpoints(server))
        {
            if (endpoint.RoutePattern.RawText!.Contains("**path:file", StringComparison.Ordinal)) continue; // files of wwwroot while it is developed
            var duties = DutyTable.Of(endpoint, method)!.Value;
            var isPage = endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is not null;
            if (isPage && method != "GET") continue; // a page answers forms only where it has one, and none has
            foreach (var held in DutyWords.Single.Prepend(Duties.None))
            {
                using var request = new HttpRequestMessage(new(method), Regex.Replace("/" + endpoint.RoutePattern.RawText!.Trim('/'), @"\{[^}]+\}", "x"));
                if (held != Duties.None) request.Headers.Authorization = new("Bearer", server.Tokens[held]);
                if (method is "POST" or "PUT" or "PATCH" or "DELETE") request.Content = request.RequestUri!.OriginalString.StartsWith("/account/", StringComparison.Ordinal) ? new FormUrlEncodedContent([]) : JsonContent.Create(new { });
                using var answer = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);
                var isRefused = answer.StatusCode is HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden || answer.Headers.Location?.OriginalString is { } to && (to.StartsWith("/sign-in?back", StringComparison.Ordinal) || to == "/not-allowed");
                var isAllowed = duties == DutyTable.Anybody || held.Meets(duties);
                if (isRefused == isAllowed || (int)answer.StatusCode >= 500) wrong.Add($"{method} {request.RequestUri} with {DutyWords.Of(held)}: {(int)answer.StatusCode}, asked is {DutyWords.Of(duties)}");
                // Programs get a problem document, never a page.
                if (!isAllowed && !isPage && answer.Content.Headers.ContentType?.MediaType != "application/problem+json") wrong.Add($"{method} {request.RequestUri}: {answer.Content.Headers.ContentType}");
            }
        }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    // Written down once more by hand, from what the guide says that each duty is for: F field, B bench, P plan, O an owner alone, any
    // whoever is signed in, since looking is seeing everything, anybody whoever comes. An owner may all.
    private static readonly (string Who, string Method, string Routes)[] AskedBy =
    [
        ("any", "GET", "/api/openapi.json /api/me /api/set-ups /api/drift /api/profiles /api/profiles/{id} /api/attachments/{sha}"),
        ("any", "GET", "/api/mounts /api/mounts/table.{format} /api/mounts/plot.{format}"),
        ("any", "GET", "/api/profiles/{id}/editions /api/profiles/{id}/compare"),
        ("any", "GET", "/api/devices /api/devices/{id} /api/devices/{id}/certificates /api/devices/{id}/forecast"),
        ("any", "GET", "/api/devices/{id}/entry-check /api/devices/{id}/checks /api/devices/{id}/couplings"),
        ("any", "GET", "/api/devices/{id}/history.{format} /api/devices/{id}/checks.{format} /api/devices/{id}/class"),
        ("any", "GET", "/api/devices/{id}/response /api/certificates/{fact}/curve /api/certificates/{fact}/curve.{format}"),
        ("any", "GET", "/api/labels/{code} /api/labels/sheet.{format}"),
        ("any", "GET", "/api/fleet/devices.{format} /api/fleet/results.{format} /api/fleet/inspections.{format} /api/fleet/register.xlsx"),
        ("any", "GET", "/api/fleet/campaigns.{format} /api/fleet/stations.{format} /api/fleet/kit.{format}"),
        ("any", "GET", "/api/fleet/limits.{format} /api/fleet/settings.{format} /api/campaigns/{id}/plan.{format}"),
        ("any", "GET", "/api/campaigns /api/campaigns/{id} /api/campaigns/{id}/stations /api/campaigns/{id}/checks"),
        ("any", "GET", "/api/campaigns/{id}/checks/superseded"),
        ("any", "GET", "/api/campaigns/{id}/map.{format} /api/campaigns/{id}/readiness /api/campaigns/{id}/field-kit"),
        ("any", "GET", "/api/campaigns/{id}/deployment /api/campaigns/{id}/events /api/campaigns/{id}/analysis.{format}"),
        ("any", "GET", "/api/campaigns/{id}/bands.{format} /api/campaigns/{id}/comparisons /api/campaigns/{id}/sessions /api/campaigns/{id}/evidence.pdf"),
        ("any", "GET", "/api/campaigns/{id}/budget.{format} /api/campaigns/{id}/covariance.{format}"),
        ("any", "GET", "/api/campaigns/{id}/surveys /api/campaigns/{id}/weather"),
        ("any", "GET", "/api/events/{id} /api/events/{id}/trace /api/events/{id}/bands /api/rests-on/{kind}/{id}"),
        ("any", "GET", "/api/doubts /api/doubts/{key} /api/facts /api/facts/head /api/facts/lines /api/facts/{id}"),
        ("any", "GET", "/api/imports /api/imports/{id}/take-back /api/imports/{id}/legend /api/imports/templates/{table}.{format}"),
        // Something is worked out of what is sent, and nothing is kept.
        ("any", "POST", "/api/tones /api/checks/work-out /api/data-sheets /api/digital-certificates /api/labels/photo"),
        ("any", "POST", "/api/checks/recordings/work-out"),
        // Enters devices, plans campaigns, takes over files.
        ("P", "POST", "/api/devices /api/devices/{id}/joins /api/imports /api/profiles/{id}/confirmations"),
        ("P", "POST", "/api/imports/files"),
        ("P", "POST", "/api/imports/{id}/take-back /api/imports/{id}/count-again"),
        ("P", "POST", "/api/campaigns/{id}/sensitivity-rule /api/profiles/{id}/preview"),
        ("P", "PATCH", "/api/devices/{id}"),
        ("P", "PUT", "/api/campaigns/{id} /api/campaigns/{id}/stations/{station} /api/campaigns/{id}/stations/{station}/chain"),
        ("P", "PUT", "/api/campaigns/{id}/kit/{purpose} /api/profiles/{id}"),
        ("P", "DELETE", "/api/campaigns/{id}/stations/{station}"),
        // Of a device that one has in one's hands, and by the door for facts, which looks at each once more.
        ("FBP", "POST", "/api/devices/{id}/places /api/devices/{id}/statuses /api/devices/{id}/notes /api/devices/{id}/services"),
        ("FBP", "POST", "/api/devices/{id}/inspections /api/devices/{id}/labels /api/attachments"),
        ("FBP", "POST", "/api/campaigns/{id}/weather"),
        ("FBP", "POST", "/api/facts /api/facts/{id}/annulments /api/field/facts"),
        // States calibrations and checks; calibrations also come with what is taken over, checks also from the field.
        ("B", "POST", "/api/devices/{id}/couplings"),
        ("BP", "POST", "/api/curves /api/certificates /api/certificates/{fact}/reviews /api/certificates/{fact}/choices /api/doubts/{key}/settlements"),
        ("BP", "PUT", "/api/certificates/{fact}"),
        ("FB", "POST", "/api/checks /api/checks/recordings /api/checks/again /api/campaigns/{id}/comparisons"),
        // What was recorded outdoors, or comes as a table.
        ("FP", "POST", "/api/campaigns/{id}/events /api/campaigns/{id}/events/table /api/campaigns/{id}/recordings"),
        ("FP", "POST", "/api/campaigns/{id}/clocks /api/campaigns/{id}/clock-checks /api/campaigns/{id}/clock-hours"),
        ("FP", "POST", "/api/campaigns/{id}/incidences /api/campaigns/{id}/sessions"),
        ("FP", "POST", "/api/campaigns/{id}/surveys /api/campaigns/{id}/surveys/table"),
        ("FP", "POST", "/api/campaigns/{id}/weather/table"),
        ("O", "POST", "/api/facts/handed-over"),
        // Whoever is not signed in signs in; the address of a calendar is its own key.
        ("anybody", "POST", "/account/enter /account/first-owner /account/password-link /account/join"),
        ("anybody", "GET", "/account/outside /trust/authority.crt /look.css /calendar/{secret}.ics"),
        ("anybody", "*", "/field /field/sw.js /{**path:file}"),
        ("any", "POST", "/account/leave /account/leave-everywhere /account/password"),
        ("any", "*", "/_blazor /_blazor/negotiate /_blazor/disconnect /_blazor/initializers"),
    ];

    private static readonly (string Who, string Routes)[] ShownTo =
    [
        ("any", "/ /fleet /fleet/print /compare /devices/{Id} /devices/{Id}/{Word} /drift /tones /checks /checks/{Campaign} /in-place/{Campaign} /l/{Code}"),
        ("any", "/campaigns /campaigns/{Id} /profiles /profiles/{Id} /profiles/{Id}/compare /board/{Campaign} /events/{Campaign} /events/{Campaign}/{Event}"),
        ("any", "/doubts /doubts/{Key} /rests-on/{Kind}/{Id} /evidence/{Campaign} /set-ups /mounts /journal /me"),
        ("P", "/plan /plan/{Id} /import"),
        ("BP", "/bench"),
        ("FBP", "/labels"),
        ("O", "/hand-over /people"),
        ("anybody", "/sign-in /first-owner /password-link /join /trust /missing /not-allowed"),
    ];

    private static readonly (char Letter, Duties Duty)[] Letters =
        [('L', Duties.Look), ('F', Duties.Field), ('B', Duties.Bench), ('P', Duties.Plan), ('O', Duties.Own)];

    [Fact]
    public void Each_endpoint_and_page_is_open_to_whom_the_hand_written_tables_say()
    {
        AreSame(
            AskedBy.SelectMany(row => row.Routes.Split(' ').Select(route => $"{row.Method} {route}: {row.Who}")),
            DutyTable.Endpoints.Select(row => $"{row.Key}: {Who(row.Value)}"));
        AreSame(
            ShownTo.SelectMany(row => row.Routes.Split(' ').Select(route => $"{route}: {row.Who}")),
            DutyTable.Pages.Select(row => $"{row.Key}: {Who(row.Value)}"));
    }

    private static void AreSame(IEnumerable<string> byHand, IEnumerable<string> inTheTable)
    {
        List<string> hand = [.. byHand.Order(StringComparer.Ordinal)];
        List<string> table = [.. inTheTable.Order(StringComparer.Ordinal)];
        var missing = hand.Except(table).Select(row => "not in the table " + row);
        var wrong = missing.Concat(table.Except(hand).Select(row => "in the table " + row));
        Assert.True(hand.SequenceEqual(table), string.Join('\n', wrong));
    }

    private static string Who(Duties duties) => duties switch
    {
        DutyTable.Anybody => "anybody",
        Duties.Any => "any",
        _ => string.Concat(Letters.Where(l => duties.HasFlag(l.Duty)).Select(l => l.Letter)),
    };

    [Theory]
    [InlineData("plan", Duties.Plan)]
    [InlineData("bench, PLAN", Duties.Bench | Duties.Plan)]
    [InlineData(" own look,field ", Duties.Own | Duties.Look | Duties.Field)]
    public void Duties_are_read_as_people_write_them(string text, Duties duties)
    {
        Assert.True(DutyWords.TryRead(text, out var read));
        Assert.Equal(duties, read);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData(" , ")]
    [InlineData("king")]
    [InlineData("plan king")]
    [InlineData("none")]
    [InlineData("any")]
    public void What_is_no_duty_is_not_read(string? text) => Assert.False(DutyWords.TryRead(text, out _));

    [Fact]
    public void Duties_are_named_in_one_order_and_each_has_a_meaning()
    {
        Assert.Equal("none", DutyWords.Of(Duties.None));
        Assert.Equal("look, plan", DutyWords.Of(Duties.Plan | Duties.Look));
        Assert.Equal("look, field, bench, plan, own", DutyWords.Of(Duties.Any));
        Assert.Equal(5, DutyWords.Single.Select(DutyWords.Meaning).Where(m => m.Length > 0).Distinct().Count());
        Assert.Equal("", DutyWords.Meaning(Duties.Any));
    }

    [Theory]
    [InlineData(Duties.None, Duties.Any, false)]
    [InlineData(Duties.Look, Duties.Any, true)]
    [InlineData(Duties.Look, Duties.Field, false)]
    [InlineData(Duties.Look | Duties.Field, Duties.Field | Duties.Bench, true)]
    [InlineData(Duties.Plan, Duties.Field | Duties.Bench, false)]
    [InlineData(Duties.Plan, Duties.Own, false)]
    [InlineData(Duties.Plan, Duties.None, false)]
    [InlineData(Duties.Own, Duties.Plan, true)]
    [InlineData(Duties.Own, Duties.None, true)]
    public void One_duty_of_those_that_are_asked_for_is_enough(Duties held, Duties asked, bool isEnough) =>
        Assert.Equal(isEnough, held.Meets(asked));

    // Written down once more by hand: F field, B bench, P plan, O owner alone. What an annulment asks for is asked of its target.
    private static readonly Dictionary<string, string> StatedBy = new()
    {
        ["event-recorded recorder-clock-set recorder-time-checked recorder-hour-chosen incidence-stated test-session-stated chain-placed chain-taken-in"] = "FP",
        ["station-surveyed weather-logged"] = "FP",
        ["chain-checked tone-noted chains-compared"] = "FB",
        ["photo-taken weather-noted item-put-aside person-named label-bound"] = "FBP",
        ["device-moved device-status-changed device-noted device-serviced device-inspected"] = "FBP",
        ["certificate-issued certificate-chosen alarm-reviewed doubt-settled"] = "BP",
        ["coupling-stated"] = "B",
        ["profile-written profile-confirmed campaign-planned station-planned chain-planned kit-planned sensitivity-rule-chosen"] = "P",
        ["device-registered device-described devices-joined devices-parted import-accepted settings-chosen register-founded"] = "P",
        ["client-clock-noticed"] = "O",
    };

    [Fact]
    public void Each_kind_of_fact_is_stated_by_whom_the_hand_written_table_says()
    {
        var letters = Letters.Where(l => l.Letter is 'F' or 'B' or 'P').ToList();
        var expected = StatedBy.SelectMany(row => row.Key.Split(' ').Select(name => (name, row.Value))).ToDictionary();

        var known = FactKinds.All.Select(k => k.Name).Where(n => n != FactKinds.Annulled).ToHashSet();
        Assert.Equal(expected.Keys.Order(), known.Order());
        foreach (var (name, who) in expected)
        {
            var by = string.Concat(letters.Where(l => l.Duty.Meets(DutyTable.OfKind(name))).Select(l => l.Letter));
            Assert.True((by.Length == 0 ? "O" : by) == who, $"{name}: {by}, {who} by hand");
            Assert.True(Duties.Own.Meets(DutyTable.OfKind(name)), name);
        }
        // Whoever only looks states nothing, and what a newer version wrote is for who plans.
        Assert.All(known, name => Assert.False(Duties.Look.Meets(DutyTable.OfKind(name))));
        Assert.Equal(Duties.Plan, DutyTable.OfKind("tide-noted"));
    }

    // What a phone may state each kind of, also by hand; bodies on which it hangs are tried one by one in the tests of what phones say.
    [Fact]
    public void Each_kind_of_fact_reaches_from_a_phone_as_far_as_the_hand_written_table_says()
    {
        Dictionary<PhoneReach, string> byHand = new()
        {
            [PhoneReach.Campaign] = "chain-checked chain-placed chain-taken-in chains-compared event-recorded incidence-stated photo-taken "
                + "tone-noted weather-noted",
            [PhoneReach.OwnPerson] = "person-named",
            [PhoneReach.DevicesThere] = "device-noted",
            [PhoneReach.PlannedDevices] = "device-inspected device-moved",
            [PhoneReach.Nothing] = "alarm-reviewed campaign-planned certificate-chosen certificate-issued chain-planned client-clock-noticed coupling-stated "
                + "device-described device-registered devices-joined devices-parted doubt-settled fact-annulled import-accepted "
                + "item-put-aside kit-planned profile-confirmed profile-written register-founded sensitivity-rule-chosen settings-chosen "
                + "station-planned station-surveyed test-session-stated weather-logged",
        };
        string[] hangsOnTheBody =
            ["device-serviced", "device-status-changed", "label-bound", "recorder-clock-set", "recorder-hour-chosen", "recorder-time-checked"];

        foreach (var (reach, names) in byHand)
            Assert.Equal(
                names.Split(' '),
                FactKinds.All.Where(k => !hangsOnTheBody.Contains(k.Name) && k.Phone(k.Example) == reach).Select(k => k.Name).Distinct()
                    .Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Annulling_asks_for_what_stating_asked_for()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        async Task<HttpResponseMessage> Post(Duties duty, string path, object body)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = JsonContent.Create(body) };
            request.Headers.Authorization = new("Bearer", server.Tokens[duty]);
            return await server.Client.SendAsync(request, TestContext.Current.CancellationToken);
        }
        using var made = await Post(Duties.Plan, "/api/devices", new { kind = "microphone", maker = "M", model = "A", serial = "1", details = new { } });
        var fact = (await made.Content.ReadFromJsonAsync<List<Dictionary<string, object>>>(TestContext.Current.CancellationToken))![0]["id"].ToString();

        using var refused = await Post(Duties.Bench, $"/api/facts/{fact}/annulments", new { reason = "no" });
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.Contains("plan", await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        using var done = await Post(Duties.Own, $"/api/facts/{fact}/annulments", new { reason = "no" });
        Assert.Equal(HttpStatusCode.OK, done.StatusCode);
        // Annulling the annulment makes it count again: that asks for the same duty as stating it did.
        var annulment = (await done.Content.ReadFromJsonAsync<List<Dictionary<string, object>>>(TestContext.Current.CancellationToken))![0]["id"].ToString();
        using var back = await Post(Duties.Field, $"/api/facts/{annulment}/annulments", new { reason = "no" });
        Assert.Equal(HttpStatusCode.Forbidden, back.StatusCode);
        using var backByPlan = await Post(Duties.Plan, $"/api/facts/{annulment}/annulments", new { reason = "no" });
        Assert.Equal(HttpStatusCode.OK, backByPlan.StatusCode);
        // The door that it came through names the token.
        Assert.Contains("by token", server.Live.Log.ReadFrom(1).First().Door, StringComparison.Ordinal);
    }

    private static IEnumerable<(RouteEndpoint Endpoint, string Method)> Endpoints(ServerUnderTest server) => server.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
        .Where(e => e.Metadata.GetMetadata<StaticAssetDescriptor>() is null && !e.RoutePattern.RawText!.StartsWith("/_framework/", StringComparison.Ordinal) && !e.RoutePattern.RawText.StartsWith("_framework/", StringComparison.Ordinal))
        .SelectMany(e => (e.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods is { Count: > 0 } methods ? methods : ["GET", "POST"]).Select(m => (e, m)));
}
