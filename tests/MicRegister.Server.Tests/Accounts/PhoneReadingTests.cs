using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Server.Accounts;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>What a phone may read: the kit of its campaign and what labels are on, and no more.</summary>
public sealed class PhoneReadingTests
{
    // Written down once more, so that a row that is added or lost is seen.
    private static readonly string[] Allowed =
    [
        "GET /api/me", "GET /api/campaigns/{id}/field-kit", "GET /api/labels/{code}", "POST /api/labels/photo", "POST /api/field/facts",
        "POST /api/attachments", "POST /account/leave",
    ];

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_endpoint_that_is_no_row_of_the_phones_table_is_refused_to_a_phone()
    {
        await using var phone = await HeathPhone.Open();
        var (wrong, met, count) = (new List<string>(), new HashSet<string>(), 0);
        foreach (var endpoint in phone.Server.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>())
        {
            var route = "/" + endpoint.RoutePattern.RawText!.Trim('/');
            var methods = endpoint.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods is { Count: > 0 } known
                ? known
                : ["GET", "POST"];
            foreach (var method in methods)
            {
                if (DutyTable.Of(endpoint, method) is not { } duties || duties == DutyTable.Anybody) continue;
                count++;
                var isPage = endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is not null;
                if (isPage && method != "GET") continue;
                // Leaving would end this session; it is left at the end.
                if (route == "/account/leave")
                {
                    met.Add($"{method} {route}");
                    continue;
                }
                var own = route.Replace("/campaigns/{id}", "/campaigns/" + HeathPhone.Campaign, StringComparison.Ordinal);
                var address = Regex.Replace(own, @"\{[^}]+\}", HeathPhone.Label);
                using var answer = await Ask(phone.Browser, method, address);
                var isLed = answer.StatusCode == HttpStatusCode.Redirect;
                var to = isLed ? answer.Headers.Location!.OriginalString : "";
                var isRefused = answer.StatusCode == HttpStatusCode.Forbidden || (isPage && to == "/not-allowed");
                if (Allowed.Contains($"{method} {route}"))
                {
                    met.Add($"{method} {route}");
                    if (isRefused || (int)answer.StatusCode >= 500) wrong.Add($"{method} {route} is the phone's: {(int)answer.StatusCode}");
                }
                else if (isPage && route is "/" or "/l/{Code}")
                {
                    if (!to.StartsWith("/field/", StringComparison.Ordinal)) wrong.Add($"{method} {route} leads to '{to}'");
                }
                else if (!isRefused || (!isPage && answer.Content.Headers.ContentType?.MediaType != "application/problem+json"))
                {
                    wrong.Add($"{method} {route}: {(int)answer.StatusCode} {answer.Content.Headers.ContentType}");
                }
            }
        }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.Equal(Allowed.Order(), met.Order());
        Assert.Equal(Allowed.Order(), PhoneTable.Endpoints.Order());
        Assert.True(count > 90, $"{count} endpoints");
        using var left = await ServerUnderTest.Fill(phone.Browser, "/join", "/account/leave");
        Assert.NotEqual(HttpStatusCode.Forbidden, left.StatusCode);
    }

    [Fact]
    public async Task A_phone_is_given_the_kit_of_its_own_campaign_alone()
    {
        await using var phone = await HeathPhone.Open();
        Assert.Equal(HttpStatusCode.OK, (await Ask(phone.Browser, "GET", $"/api/campaigns/{HeathPhone.Campaign}/field-kit")).StatusCode);
        using var other = await Ask(phone.Browser, "GET", "/api/campaigns/ELSEWHERE/field-kit");
        Assert.Equal(
            (HttpStatusCode.Forbidden, "application/problem+json"), (other.StatusCode, other.Content.Headers.ContentType!.MediaType));
        Assert.Contains("HEATH", await other.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        // Whoever signs in with an account reads both.
        using var asked = new HttpRequestMessage(HttpMethod.Get, "/api/campaigns/ELSEWHERE/field-kit");
        asked.Headers.Authorization = new("Bearer", phone.Server.Tokens[Duties.Field]);
        Assert.Equal(HttpStatusCode.OK, (await phone.Server.Client.SendAsync(asked, Cancel)).StatusCode);
    }

    [Fact]
    public async Task Of_strangers_the_kit_tells_what_a_label_in_the_hand_needs_until_they_are_placed()
    {
        await using var phone = await HeathPhone.Open("STRANGER");
        await phone.Desk(new LabelBound(HeathPhone.Label, null), Subject.Label(HeathPhone.Label), Subject.Device("STRANGER"));
        async Task<JsonObject> Told(string device)
        {
            var kit = JsonNode.Parse(await phone.Browser.GetStringAsync($"/api/campaigns/{HeathPhone.Campaign}/field-kit", Cancel))!;
            return kit["devices"]!.AsArray().Single(d => (string)d!["id"]! == device)!.AsObject();
        }

        var stranger = await Told("STRANGER");
        Assert.Equal(
            [
                "details", "id", "isPlanned", "isSpare", "isStranger", "kind", "kindLabel", "label", "name", "serial", "status", "verdict",
                "why",
            ],
            stranger.Select(p => p.Key).Order(StringComparer.Ordinal));
        Assert.Empty(stranger["details"]!.AsObject());
        Assert.Equal(
            [HeathPhone.Label, "S-STRANGER", "undecided"],
            new[] { "label", "serial", "verdict" }.Select(k => (string)stranger[k]!));
        Assert.Contains("not of this campaign", (string)stranger["why"]!, StringComparison.Ordinal);
        Assert.DoesNotContain("Shelf", stranger.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal("Shelf of PLANNED", (string)(await Told("PLANNED"))["place"]!);
        Assert.Equal((true, "Owner SPARE"), ((bool)(await Told("SPARE"))["isSpare"]!, (string)(await Told("SPARE"))["owner"]!));
        // The label is looked up by its code too.
        var label = JsonNode.Parse(await phone.Browser.GetStringAsync("/api/labels/" + HeathPhone.Label, Cancel))!;
        Assert.Contains("S-STRANGER", (string)label["bound"]![0]!["name"]!, StringComparison.Ordinal);

        Assert.Equal(["stored"], await phone.Send(phone.Placed("STRANGER")));
        var placed = await Told("STRANGER");
        Assert.Equal((null, "Shelf of STRANGER"), ((bool?)placed["isStranger"], (string)placed["place"]!));
    }

    // Placing is all that it takes to see a stranger's certificates: not of the whole fleet.
    [Fact]
    public async Task Of_forty_strangers_that_were_placed_the_kit_tells_all_and_of_more_what_it_tells_of_any()
    {
        string[] strangers = [.. Enumerable.Range(0, 45).Select(i => $"X{i:00}")];
        await using var phone = await HeathPhone.Open(strangers);
        Assert.All(await phone.Send([.. strangers.Select(x => phone.Placed(x))]), a => Assert.Equal("stored", a));

        var kit = JsonNode.Parse(await phone.Browser.GetStringAsync($"/api/campaigns/{HeathPhone.Campaign}/field-kit", Cancel))!;
        var told = kit["devices"]!.AsArray().ToDictionary(d => (string)d!["id"]!, d => (bool?)d!["isStranger"] != true);
        Assert.Equal(40, strangers.Count(x => told[x]));
        Assert.True(told["PLANNED"] && told["SPARE"]);
        Assert.Equal(47, told.Count);
        Assert.DoesNotContain("Shelf of X44", kit.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_label_leads_a_phone_to_the_field_page_and_no_page_gives_it_a_circuit()
    {
        await using var phone = await HeathPhone.Open();
        using var label = await phone.Browser.GetAsync("/l/" + HeathPhone.Label, Cancel);
        Assert.Equal("/field/#" + HeathPhone.Label, label.Headers.Location!.OriginalString);
        Assert.Equal(HttpStatusCode.OK, (await phone.Browser.GetAsync("/field/", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await phone.Browser.GetAsync("/field/sw.js", Cancel)).StatusCode);
        var page = await phone.Browser.GetStringAsync("/not-allowed", Cancel);
        Assert.Contains("not among your duties", page, StringComparison.Ordinal);
        Assert.DoesNotContain("\"type\":\"server\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"fleet\"", page, StringComparison.Ordinal);
    }

    private static async Task<HttpResponseMessage> Ask(HttpClient by, string method, string address)
    {
        using var request = new HttpRequestMessage(new(method), address);
        var isForm = address.StartsWith("/account/", StringComparison.Ordinal);
        if (method is "POST" or "PUT" or "PATCH" or "DELETE")
            request.Content = isForm ? new FormUrlEncodedContent([]) : JsonContent.Create(new { });
        return await by.SendAsync(request, Cancel);
    }
}
