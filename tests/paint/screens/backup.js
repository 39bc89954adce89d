"use strict";
// A backup of two hundred photos, and its restore on an empty phone.
const fs = require("node:fs");
const path = require("node:path");

const PHOTOS = 200;
const PHOTO = path.join(__dirname, "../../vectors/photo_with_place.jpg");

module.exports = async function backup(hand, phone) {
  await phone.press("Open the demo");
  await phone.see("Weigh it as delivered");
  const id = (await phone.place()).split("/").pop();
  await phone.page.evaluate(keep, id, PHOTOS, fs.readFileSync(PHOTO).toString("base64"));
  await phone.go("#/settings");
  await hand.begin();
  await hand.tap("200 photos: open what is kept", "What is kept, backup and bin", `Photos: ${PHOTOS}.`);
  await hand.tap("200 photos: make a backup", "Make a backup", "Ready:");
  await hand.tap("200 photos: save the file", "Save the file", "Saved with your downloads");
  const file = await phone.saved(".zip");
  await hand.tap("what is kept: open the restore", "Restore from a backup");
  await phone.go(`#/fish/${id}`);
  await hand.tap("200 photos: open the journal", "Journal: photos and notes", "Take this photo out");
  const made = await hand.end();

  const all = { origin: new URL(phone.address).origin, storageTypes: "local_storage,indexeddb" };
  await phone.tools.send("Storage.clearDataForOrigin", all);
  await phone.go("#/");
  await phone.page.reload();
  await phone.see("Start a fish");
  await phone.go("#/restore");
  await hand.begin();
  await hand.choose("restore of 200 photos: choose the file", "#backup", file, "What it would do");
  await hand.tap("restore of 200 photos: put it in", "Put it in", "Done:");
  await hand.tap("restore of 200 photos: take it back", "Take it back", "Everything is as it was before");
  return [...made, ...(await hand.end())];
};

/// In the page: photos of a fish under the app's own keys, no two alike.
async function keep(id, count, text) {
  const jpeg = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const database = await new Promise((done, failed) => {
    const opening = indexedDB.open("scaleside", 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("photos");
    opening.onsuccess = () => done(opening.result);
    opening.onerror = failed;
  });
  const change = database.transaction("photos", "readwrite");
  for (let nth = 0; nth < count; nth += 1) {
    jpeg[jpeg.length - 3] = nth;
    change.objectStore("photos").put(jpeg.slice(), `fish/${id}/p${String(nth).padStart(3, "0")}`);
  }
  await new Promise((done, failed) => {
    change.oncomplete = done;
    change.onabort = failed;
  });
  database.close();
}
