using MicRegister.Register;
using MicRegister.Server.Accounts;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>Signing in, what duties show, and sessions that end under an open page.</summary>
public sealed class SignInTests : IAsyncLifetime
{
    private const string Password = "seven quiet lapwings";
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync()
    {
        _desk = await DeskUnderTest.Open(withPeople: true);
        foreach (var duty in DutyWords.Single)
        {
            var account = ((Result<Account>.Accepted)_desk.Book!.Make("Person " + DutyWords.Of(duty), duty)).Value;
            Assert.Null(_desk.Book.SetPassword(account.Id, Password));
        }
    }

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Who_plans_signs_in_enters_a_device_and_is_named_in_the_journal()
    {
        var page = await SignedIn("Person plan", "/fleet");
        await page.GetByText("Enter a device").First.ClickAsync();
        var form = page.GetByRole(AriaRole.Form, new() { Name = "Enter a device" });
        await form.GetByLabel("Serial number").FillAsync("4711");
        await form.GetByRole(AriaRole.Button, new() { Name = "Enter" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("4711");

        await page.GotoAsync("/journal");
        await Expect(page.Locator("tbody tr").First).ToContainTextAsync("Person plan");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "People", Exact = true })).ToHaveCountAsync(0);
        await page.GotoAsync("/people");
        await Expect(page.Locator("h1")).ToContainTextAsync("not among your duties");
    }

    [Fact]
    public async Task Who_may_only_look_is_told_so_at_the_door_and_keeps_what_was_typed()
    {
        var page = await SignedIn("Person look", "/fleet");
        await page.GetByText("Enter a device").First.ClickAsync();
        var form = page.GetByRole(AriaRole.Form, new() { Name = "Enter a device" });
        await form.GetByLabel("Serial number").FillAsync("4712");
        await form.GetByRole(AriaRole.Button, new() { Name = "Enter" }).ClickAsync();

        await Expect(page.GetByText("needs one of the duties plan; you hold look")).ToBeVisibleAsync();
        await Expect(form.GetByLabel("Serial number")).ToHaveValueAsync("4712");
        Assert.Equal(0, _desk.Live.Now.Count);
    }

    [Fact]
    public async Task An_owner_makes_an_account_and_a_revoked_one_loses_its_open_page_at_once()
    {
        var owner = await SignedIn("Person own", "/people");
        var form = owner.GetByRole(AriaRole.Form, new() { Name = "Make an account" });
        await form.GetByLabel("Name: facts carry it").FillAsync("New technician");
        await form.GetByLabel("bench: states").CheckAsync();
        await form.GetByRole(AriaRole.Button, new() { Name = "Make an account" }).ClickAsync();
        var link = await owner.Locator(".clash code").TextContentAsync();

        // The new technician sets a password by the link and is in.
        var context = await _desk.NewContext();
        var technician = await context.NewPageAsync();
        await technician.GotoAsync(link!);
        await technician.GetByLabel("Password").FillAsync("nine patient lapwings");
        await technician.GetByRole(AriaRole.Button, new() { Name = "Set it" }).ClickAsync();
        await DeskUnderTest.Heard(technician); // in: going elsewhere before would break the form's journey off
        await technician.GotoAsync("/bench");
        await DeskUnderTest.Heard(technician);
        await Expect(technician.Locator("h1")).ToContainTextAsync("bench");

        await owner.Locator("tr").Filter(new() { HasText = "New technician" }).GetByRole(AriaRole.Button, new() { Name = "Close" }).ClickAsync();
        await owner.GetByRole(AriaRole.Button, new() { Name = "Close it" }).ClickAsync(); // it asks
        await Expect(technician.Locator("h1")).ToContainTextAsync("Your sign-in is over");

        // A phone is invited with a code to scan.
        await owner.GetByRole(AriaRole.Button, new() { Name = "Put it away" }).ClickAsync();
        await Expect(owner.GetByRole(AriaRole.Button, new() { Name = "Show a code to join" })).ToBeDisabledAsync();
    }

    [Fact]
    public async Task Pages_work_under_their_policy_and_have_no_accessibility_finding()
    {
        var said = new List<string>();
        var page = await SignedIn("Person own", "/", said);
        var found = new List<string>();
        foreach (var path in new[] { "/", "/fleet", "/bench", "/checks", "/campaigns", "/import", "/journal", "/me", "/people", "/profiles", "/drift", "/tones", "/not-allowed" })
        {
            await page.GotoAsync(path);
            await DeskUnderTest.Heard(page);
            found.AddRange(await Accessibility.Findings(page, path));
        }
        var stranger = await (await _desk.NewContext()).NewPageAsync();
        stranger.Console += (_, m) => said.Add(m.Text);
        foreach (var path in new[] { "/sign-in", "/trust", "/join?key=none", "/first-owner?key=none" })
        {
            await stranger.GotoAsync(path);
            found.AddRange(await Accessibility.Findings(stranger, path));
        }
        Assert.True(found.Count == 0, string.Join("\n", found));
        Assert.True(!said.Any(s => s.Contains("Content Security Policy", StringComparison.OrdinalIgnoreCase)), string.Join("\n", said));
    }

    private async Task<IPage> SignedIn(string name, string path, List<string>? said = null)
    {
        var context = await _desk.NewContext(new() { ViewportSize = new() { Width = 1300, Height = 900 } });
        var page = await context.NewPageAsync();
        if (said is not null) page.Console += (_, m) => said.Add(m.Text);
        await page.GotoAsync(path);
        await page.GetByLabel("Name").FillAsync(name);
        await page.GetByLabel("Password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await DeskUnderTest.Heard(page);
        return page;
    }
}
