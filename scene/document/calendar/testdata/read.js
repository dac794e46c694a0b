// Reads a calendar from standard input with ical.js and tells its events as JSON.
const fs = require('fs');
const load = async () => (await import(require.resolve('ical.js'))).default;
load().then((ICAL) => {
  const calendar = new ICAL.Component(ICAL.parse(fs.readFileSync(0, 'utf8')));
  const text = (c, name) => { const v = c.getFirstPropertyValue(name); return v ? v.toString() : ''; };
  console.log(JSON.stringify(calendar.getAllSubcomponents('vevent').map((c) => ({
    UID: text(c, 'uid'), Summary: text(c, 'summary'), Description: text(c, 'description'), Kind: text(c, 'categories'),
    Start: text(c, 'dtstart'), End: text(c, 'dtend'), Stamp: text(c, 'dtstamp'), Transparency: text(c, 'transp'),
    Zone: c.getFirstPropertyValue('dtstart').zone.tzid,
    Alarms: c.getAllSubcomponents('valarm').map((a) => text(a, 'action') + ' ' + text(a, 'trigger')),
  }))));
});
