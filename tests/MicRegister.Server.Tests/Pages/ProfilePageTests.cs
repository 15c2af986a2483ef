using AngleSharp.Dom;
using Bunit;
using MicRegister.Documents.Tests;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Profiles;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Profiles are changed with open eyes: nothing is stored before a person has seen what it changes.</summary>
public sealed class ProfilePageTests : PageContext
{
    private const string Id = BuiltInProfiles.Usual;
    private const string AgeKey = LimitKey.IntervalMonths + "microphone/sensitivity";
    private const string AgeLabel = "Microphone: age of its sensitivity calibration";

    [Fact]
    public async Task A_change_is_stored_only_after_what_it_changes_was_shown()
    {
        var page = await Open();
        Assert.True(Save(page).HasAttribute("disabled"));

        await Type(page, AgeLabel, "2");
        await Form(page).SubmitAsync();
        page.WaitForAssertion(() => Assert.False(Save(page).HasAttribute("disabled")));
        // Two months after 1 March they were too old on 2 June.
        Assert.Contains("1 of 1 campaign would change, with 2 of 2 events.", page.Markup, StringComparison.Ordinal);
        Assert.Contains("stricter", page.Find("section[aria-label='What would change']").TextContent, StringComparison.Ordinal);
        Assert.Equal(24, Live.Now.Profile(Id)!.Value(AgeKey));

        // Another figure is not what was shown.
        await Type(page, AgeLabel, "23");
        Assert.True(Save(page).HasAttribute("disabled"));
        Assert.Empty(page.FindAll("section[aria-label='What would change']"));
        await Form(page).SubmitAsync();
        page.WaitForAssertion(() => Assert.False(Save(page).HasAttribute("disabled")));
        await Save(page).ClickAsync(new());

        page.WaitForAssertion(() => Assert.Equal(23, Live.Now.Profile(Id)!.Value(AgeKey)));
        Assert.False(Live.Now.Profile(Id)!.IsBuiltIn);
    }

    [Fact]
    public async Task What_takes_long_can_be_stopped_and_what_is_left_is_said()
    {
        Hurry(); // as if each look at the clock came a second later
        var page = await Open(events: 40);
        await Type(page, AgeLabel, "2");
        var shown = Form(page).SubmitAsync();
        page.WaitForAssertion(() => Assert.Contains("campaigns and events are worked out", page.Markup, StringComparison.Ordinal));
        Assert.True(Save(page).HasAttribute("disabled"));

        await page.InvokeAsync(() => Button(page, "Stop").Click());
        await shown;

        page.WaitForAssertion(() => Assert.Matches(@"Stopped: 0 campaigns and \d+ of 40 events were not worked out", Words(page.Markup)));
        Assert.Contains("not worked out", page.Find("section[aria-label='What would change']").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => Button(page, "Go on").Click());
        page.WaitForAssertion(() => Assert.Contains("would change, with 40 of 40 events", page.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public async Task It_is_unchecked_loudly_until_a_person_confirms_what_is_on_the_screen()
    {
        var page = await Open();
        Assert.Contains(ProfileState.Unchecked, page.Find(".mud-alert").TextContent, StringComparison.Ordinal);
        IElement Confirm() => page.Find("form[aria-label='Confirm the profile']");
        await Confirm().QuerySelectorAll("input")[0].ChangeAsync(new() { Value = "third edition" });
        await Confirm().QuerySelectorAll("input")[1].ChangeAsync(new() { Value = "15.1.2026" });
        await Confirm().SubmitAsync();
        Assert.Null(Live.Now.Profile(Id)!.Confirmed);
        await Confirm().QuerySelectorAll("input")[1].ChangeAsync(new() { Value = "2026-01-15" });
        await Confirm().SubmitAsync();

        page.WaitForAssertion(() =>
            Assert.Contains("compared with third edition, text of 2026-01-15, by ", page.Find(".mud-alert").TextContent,
            StringComparison.Ordinal));
        Assert.Equal((new DateOnly(2026, 1, 15), ProfileEdition.DigestOf(BuiltInProfiles.Find(Id)!.Written)),
            (Live.Now.Profile(Id)!.Confirmed!.EditionDay, Live.Now.Profile(Id)!.Confirmed!.Digest));

        await Meanwhile(Version(0.25));
        page.WaitForAssertion(() => Assert.Contains(ProfileState.Unchecked, page.Find(".mud-alert").TextContent, StringComparison.Ordinal));
        Assert.Equal("0.25", Input(page, "Greatest deviation from the certificate in use").GetAttribute("value"));
    }

    [Fact]
    public async Task What_was_typed_stays_when_others_write_the_profile_and_cannot_be_confirmed_for_theirs()
    {
        var page = await Open();
        await Type(page, AgeLabel, "23");
        await Meanwhile(Version(0.25));

        Assert.Equal("23", Input(page, AgeLabel).GetAttribute("value"));
        Assert.True(page.Find("form[aria-label='Confirm the profile'] button").HasAttribute("disabled"));
    }

    [Fact]
    public async Task A_limit_is_added_taken_out_and_kept_under_an_id_of_ones_own()
    {
        var page = await Open();
        await page.FindComponent<LimitEntry>().InvokeAsync(() =>
            page.FindComponent<LimitEntry>().Instance.OnAdd.InvokeAsync(LimitKey.WindMs));
        await Type(page, "Greatest wind at an event, mean", "6");
        await page.Find($"button[aria-label='Take it out: {AgeLabel}']").ClickAsync(new());
        await Form(page).QuerySelectorAll("input")[0].ChangeAsync(new() { Value = "ours" });
        await Form(page).SubmitAsync();
        page.WaitForAssertion(() => Assert.False(Save(page).HasAttribute("disabled")));
        Assert.Contains("No campaign is judged by it.", page.Markup, StringComparison.Ordinal);
        Assert.Equal("Copy as a profile of your own", Words(Save(page).TextContent));
        await Save(page).ClickAsync(new());

        page.WaitForAssertion(() =>
            Assert.EndsWith("/profiles/ours", Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal));
        var ours = Live.Now.Profile("ours")!;
        Assert.Equal((6.0, "own", null), (ours.Value(LimitKey.WindMs), ours.Limit(LimitKey.WindMs)?.Certainty, ours.Limit(AgeKey)));
        Assert.True(Live.Now.Profile(Id)!.IsBuiltIn);
    }

    [Fact]
    public async Task The_list_says_of_each_whether_it_was_compared_and_who_is_judged_by_it()
    {
        await Live.Submit([.. LargeArray.Facts(1, 1),
            LargeArray.Of(new ProfileConfirmed("third", null), "2026-05-01", Subject.Profile(Id))], "test");
        var page = Render<ProfilesPage>();
        var all = BuiltInProfiles.All.Count;

        Assert.Contains($"{all - 1} of {all} are {ProfileState.Unchecked}.", page.Find(".mud-alert").TextContent, StringComparison.Ordinal);
        var row = page.FindAll("tbody tr").Single(r => r.TextContent.Contains("Engineering-grade", StringComparison.Ordinal)).TextContent;
        Assert.Contains("compared with third", row, StringComparison.Ordinal);
        Assert.Contains("Fen", row, StringComparison.Ordinal);
        Assert.Equal(all - 1, page.FindAll("tbody strong").Count);
    }

    [Fact]
    public async Task Editions_stand_side_by_side()
    {
        await Live.Submit([Version(0.25)], "test");
        Render<MudPopoverProvider>();
        var page = Render<ProfileComparePage>(p => p.Add(c => c.Id, Id));

        Assert.Contains("as it came with the program", page.Markup, StringComparison.Ordinal);
        var row = Words(page.FindAll("tbody tr").Single(r =>
            r.TextContent.Contains("certificate in use", StringComparison.Ordinal)).TextContent);
        Assert.Equal(
            "Greatest deviation from the certificate in use 0.5 dBcommon practice, no source; common practice, no source 0.25 dBinvented; own "
                + "↑ stricter", row);
        Assert.Contains("only there", page.Markup, StringComparison.Ordinal);
        Assert.Contains("No such profile", Render<ProfileComparePage>(p => p.Add(c => c.Id, "nowhere")).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void No_control_is_drawn_beside_the_component_library()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "MicRegister.sln"))) folder = folder.Parent!;
        var files = Directory.GetFiles(Path.Combine(folder.FullName, "src", "MicRegister.Server", "Pages", "Profiles"), "*.razor");
        Assert.True(files.Length > 5);
        Assert.All(files, f => Assert.DoesNotMatch("<(button|input|select|textarea|table)[ >]", File.ReadAllText(f)));
    }

    private async Task<IRenderedComponent<ProfilePage>> Open(int events = 2)
    {
        await Live.Submit([.. LargeArray.Facts(3, events)], "test");
        Render<MudPopoverProvider>();
        return Render<ProfilePage>(p => p.Add(x => x.Id, Id));
    }

    private static Fact Version(double driftDb) => LargeArray.Of(
        new ProfileWritten("Ours", "Invented.", [new(LimitKey.DriftDb, driftDb, null, "invented", "own")]), "2026-05-02",
            Subject.Profile(Id));

    private static IElement Form(IRenderedComponent<ProfilePage> page) => page.Find("form[aria-label='Keep the limits']");

    private static IElement Save(IRenderedComponent<ProfilePage> page) => Form(page).QuerySelectorAll("button")[^1];

    private static IElement Button(IRenderedComponent<ProfilePage> page, string words) =>
        page.FindAll("button").Single(b => Words(b.TextContent) == words);

    private static IElement Input(IRenderedComponent<ProfilePage> page, string label) => page.Find($"input[aria-label='{label}']");

    private static Task Type(IRenderedComponent<ProfilePage> page, string label, string value) =>
        Input(page, label).ChangeAsync(new() { Value = value });

    private static string Words(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
